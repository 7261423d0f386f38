import type { ProjectId } from '../../document/ids.ts';
import { migrateDocument } from '../../document/migrateDocument.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import { type Store, StoreError } from '../ports.ts';
import { projectFactsOf } from '../search/projectFacts.ts';

export interface SalvagedProject {
  readonly projectId: ProjectId;
  readonly name: string;
  /** False where the project itself could not be read. */
  readonly isSaved: boolean;
  /** What of it stayed behind and why, in words; empty where all of it came over. */
  readonly lost: readonly string[];
}

export interface Salvage {
  readonly projects: readonly SalvagedProject[];
  /** What stayed behind beside the projects. */
  readonly lost: readonly string[];
}

const planPattern = /"planSha256":"([0-9a-f]{64})"/g;

/** Runs one part of the work; where the damaged store can't give it, the reason is noted and the rest goes on. */
const attempt = async (what: string, lost: string[], work: () => Promise<void>): Promise<boolean> => {
  try {
    await work();
    return true;
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    // The first sentence says what is broken; the advice after it is known to whoever salvages.
    lost.push(`${what}: ${/\(([^()]*)\)/.exec(error.message)?.[1] ?? error.message}`);
    return false;
  }
};

/**
 * Brings whatever a damaged store still gives out into a fresh one: each project with its changes, its plans, what was
 * issued of it, and the stock ranges. Nothing that can't be verified comes over.
 */
export const salvageProjects = async (from: Store, to: Store, at: string): Promise<Salvage> => {
  const lostBeside: string[] = [];
  await attempt('the stock ranges', lostBeside, async () => {
    for (const range of await from.listStockRanges()) await to.putStockRange(range, at);
  });
  await attempt('the saved searches', lostBeside, async () => {
    for (const saved of await from.listSavedSearches()) await to.saveSearch(saved, at);
  });

  const salvageIssues = async (projectId: ProjectId, revision: number, lost: string[]): Promise<void> => {
    const { issues, nextNumber } = await from.listIssues(projectId);
    for (const { inputsSha256: _sha256, files, ...issue } of issues)
      await attempt(`issue ${issue.number}`, lost, async () => {
        const inputs = await from.issueInputs(projectId, issue.number);
        const read = [];
        for (const { document, fileName, mediaType } of files) {
          const bytes = await from.issuedBytes(projectId, issue.number, fileName);
          if (bytes) read.push({ document, fileName, mediaType, bytes });
        }
        if (inputs === null || read.length !== files.length)
          throw new StoreError('issue-missing', 'it is not whole');
        const kept = await to.addIssue({
          projectId,
          expectedRevision: revision,
          issue: { ...issue, inputs, files: read },
        });
        if (!kept.ok) throw new StoreError('issue-missing', 'an issue before it is missing');
      });
    // A number that went to what stayed behind is not given out again.
    await to.keepBroughtIssues(projectId, { issues: [], lastNumber: nextNumber - 1 });
  };

  const projects: SalvagedProject[] = [];
  // The last changed is listed first; taken over from the last, they come to stand as they did.
  for (const { projectId, name, createdAt } of [...(await from.listProjects())].reverse()) {
    const lost: string[] = [];
    const isSaved = await attempt('the project', lost, async () => {
      const stored = await from.loadProject(projectId);
      const events = await from.listEvents(projectId);
      if (!stored || !events) throw new StoreError('project-missing', 'it is not there any more');
      const migrated = migrateDocument(stored.document);
      if (!migrated.ok) throw new StoreError(migrated.code, migrated.message);
      const texts = JSON.stringify([stored.document, events]);
      for (const sha256 of new Set([...texts.matchAll(planPattern)].map(([, one = '']) => one)))
        await attempt(`the plan ${sha256}`, lost, async () => {
          const kept = await from.getPlan(sha256);
          if (!kept) throw new StoreError('plan-missing', 'it is not in the archive');
          await to.putPlan({
            sha256,
            fileName: kept.plan.fileName,
            bytes: kept.bytes,
            at: kept.plan.addedAt,
          });
        });
      await to.createProject({
        projectId,
        document: stored.document as ProjectDocument,
        at: createdAt,
        events,
        facts: projectFactsOf(migrated.document),
      });
      await attempt('what was issued', lost, () => salvageIssues(projectId, events.length, lost));
    });
    projects.push({ projectId, name, isSaved, lost });
  }
  return { projects, lost: lostBeside };
};
