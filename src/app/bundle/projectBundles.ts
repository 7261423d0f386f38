import type { ProjectId } from '../../document/ids.ts';
import { migrateDocument } from '../../document/migrateDocument.ts';
import { applyPatch, changeDocument, reversePatch } from '../../document/patch.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { ApiFailure } from '../apiFailure.ts';
import { fileNameFor } from '../exports.ts';
import type { Ports, ProjectEvent } from '../ports.ts';
import { projectFactsOf } from '../search/projectFacts.ts';
import { bundleRefusal } from './bundleRefusal.ts';
import { readBundle } from './readBundle.ts';
import { isSameJson } from './safeJson.ts';
import { writeBundle } from './writeBundle.ts';

export type ImportOutcome = 'taken-in' | 'there-already' | 'taken-in-as-copy';

const sha256Pattern = /"planSha256":"([0-9a-f]{64})"/g;
/** Every plan that a project names or named. */
const plansNamedIn = (value: unknown): readonly string[] => [
  ...new Set([...JSON.stringify(value).matchAll(sha256Pattern)].map(([, sha256 = '']) => sha256)),
];

/** Use cases of one project as a whole: as a file, and as a copy of how it once was. */
export const projectBundlesOver = (
  ports: Pick<Ports, 'store' | 'now' | 'freshId' | 'who' | 'sha256'>,
  over: { readonly madeWith: string; readonly listRanges: () => Promise<readonly StockRange[]> },
) => {
  const { store } = ports;

  const missing = () =>
    new ApiFailure('project-missing', 'There is no such project in this archive.', 'projectId');

  const load = async (projectId: ProjectId) => {
    const stored = await store.loadProject(projectId);
    const events = await store.listEvents(projectId);
    if (!stored || !events || events.length !== stored.revision) throw missing();
    return { document: stored.document as ProjectDocument, events };
  };

  /** Keeps a document and the changes that led to it as a new project, named after what it is a copy of. */
  const keepCopy = async (
    document: ProjectDocument,
    events: readonly ProjectEvent[],
    label: string,
  ): Promise<{ readonly projectId: ProjectId; readonly name: string }> => {
    const projectId = `project-${ports.freshId()}` as ProjectId;
    const name = `${document.job.name.slice(0, 190)} (copy)`;
    const at = ports.now();
    const renamed = changeDocument(document, (draft) => {
      draft.job.name = name;
    });
    const migrated = migrateDocument(renamed.document);
    if (!migrated.ok) throw new ApiFailure(migrated.code, migrated.message, migrated.path);
    const by = ports.who?.();
    const event: ProjectEvent = { kind: 'command', label, patch: renamed.patch, at, ...(by ? { by } : {}) };
    await store.createProject({
      projectId,
      document: renamed.document,
      at,
      events: [...events, event],
      facts: projectFactsOf(migrated.document),
    });
    return { projectId, name };
  };

  return {
    /** Everything of a project as one file. */
    async exportProject(projectId: ProjectId) {
      const { document, events } = await load(projectId);
      const text = JSON.stringify([document, events]);
      const ranges = (await over.listRanges()).filter(
        ({ id, version }) =>
          (id === document.stockRange.id && version === document.stockRange.version) ||
          text.includes(JSON.stringify({ id, version })),
      );
      const plans = [];
      for (const sha256 of plansNamedIn([document, events])) {
        const kept = await store.getPlan(sha256);
        if (kept) plans.push({ sha256, fileName: kept.plan.fileName, bytes: kept.bytes });
        else if (plansNamedIn(document).includes(sha256))
          throw new ApiFailure(
            'plan-missing',
            'A plan of this project is not in this archive, so that its file would not be whole. Look whether the archive is sound (“footrail archive check”).',
            'projectId',
          );
      }
      const { name } = document.job;
      const createdAt = events[0]?.at ?? ports.now();
      const bytes = await writeBundle(
        { projectId, name, createdAt, document, events, ranges, plans },
        { madeWith: over.madeWith, madeAt: ports.now(), sha256: ports.sha256 },
      );
      return { fileName: fileNameFor(name, 'project.zip'), mediaType: 'application/zip', bytes };
    },

    /**
     * Takes in a project file. Taking it in again changes nothing; where this archive's project has gone another way,
     * nothing happens unless a copy is asked for.
     */
    async importProject(
      bytes: Uint8Array,
      asCopy: boolean,
    ): Promise<{ readonly projectId: ProjectId; readonly name: string; readonly outcome: ImportOutcome }> {
      const bundle = await readBundle(bytes, ports.sha256);
      const { projectId } = bundle.project;
      const { name } = bundle.document.job;
      const known = await over.listRanges();
      for (const range of bundle.ranges) {
        const own = known.find(({ id, version }) => id === range.id && version === range.version);
        if (own && !isSameJson(own, range))
          throw bundleRefusal('bundle-stock-range-differs', `“${range.name}” version ${range.version}.`);
      }
      const there = await store.listEvents(projectId);
      if (there && !asCopy) {
        const isPart = isSameJson(there.slice(0, bundle.events.length), bundle.events);
        const stored = await store.loadProject(projectId);
        const isSame =
          isPart && (there.length > bundle.events.length || isSameJson(stored?.document, bundle.stored));
        if (!isSame) throw bundleRefusal('bundle-project-differs', `“${name}”.`);
        return { projectId, name, outcome: 'there-already' };
      }
      const at = ports.now();
      for (const { sha256, fileName, bytes: plan } of bundle.plans)
        await store.putPlan({ sha256, fileName, bytes: plan, at });
      for (const range of bundle.ranges) await store.putStockRange(range, at);
      if (asCopy) {
        const copy = await keepCopy(bundle.stored, bundle.events, 'Take in a project file as a copy');
        return { ...copy, outcome: 'taken-in-as-copy' };
      }
      await store.createProject({
        projectId,
        document: bundle.stored,
        at: bundle.project.createdAt,
        events: bundle.events,
        facts: projectFactsOf(bundle.document),
      });
      return { projectId, name, outcome: 'taken-in' };
    },

    /** Every change of a project, the oldest first. */
    async history(projectId: ProjectId) {
      const events = await store.listEvents(projectId);
      if (!events) throw missing();
      return events.map(({ kind, label, at, by }, index) => ({
        revision: index + 1,
        kind,
        label,
        at,
        by: by ?? null,
      }));
    },

    /** A new project that is as this one was after change `revision`, with the changes up to then. 0: the beginning. */
    async copyAt(projectId: ProjectId, revision: number) {
      const { document, events } = await load(projectId);
      if (revision > events.length)
        throw new ApiFailure(
          'no-such-change',
          `This project has had ${events.length} changes; there is no change ${revision}.`,
          'revision',
        );
      const then = events
        .slice(revision)
        .reduceRight((state, { patch }) => applyPatch(state, reversePatch(patch)), document);
      return keepCopy(
        then,
        events.slice(0, revision),
        `Copy “${then.job.name}” as it was after change ${revision}`,
      );
    },
  };
};
