import type { ProjectId } from '../../document/ids.ts';
import { migrateDocument } from '../../document/migrateDocument.ts';
import { applyPatch, changeDocument, reversePatch } from '../../document/patch.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { CallContext } from '../callContext.ts';
import { fileNameFor } from '../exports.ts';
import type { NeededContent, Ports, ProjectEvent } from '../ports.ts';
import { projectFactsOf } from '../search/projectFacts.ts';
import { bundleLimits } from './bundleFormat.ts';
import { bundleRefusal } from './bundleRefusal.ts';
import { collectIssues } from './collectIssues.ts';
import type { ImportChoice, ImportOutcome } from './importChoice.ts';
import { conflictWords, type IssueMerge, mergeIssues } from './mergeIssues.ts';
import { projectHistory } from './projectHistory.ts';
import { type ReadBundle, readBundle } from './readBundle.ts';
import { isSameJson } from './safeJson.ts';
import { differencesOf, patchBetween, relationOf } from './twoStates.ts';
import { writeBundle } from './writeBundle.ts';

interface OwnSide {
  readonly stored: ProjectDocument;
  /** Lifted to this program's version. */
  readonly document: ProjectDocument;
  readonly events: readonly ProjectEvent[];
}

/** So many changes tell a person what a side has done; a project of years has thousands. */
const changesShown = 50;

const sideOf = (document: ProjectDocument, events: readonly ProjectEvent[], common: number) => ({
  changes: events.length - common,
  /** The last first. */
  lastChanges: events
    .slice(common)
    .slice(-changesShown)
    .map(({ kind, label, at, by }) => ({ kind, label, at, by: by ?? null }))
    .reverse(),
  picture: projectFactsOf(document).picture,
});

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
    needs?: NeededContent,
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
      needs,
    });
    return { projectId, name };
  };

  /** Reads a project file whose stock, too, goes with this archive's. */
  const readSafely = async (bytes: Uint8Array, context: CallContext): Promise<ReadBundle> => {
    const bundle = await readBundle(bytes, { ...context, sha256: ports.sha256 });
    const known = await over.listRanges();
    for (const range of bundle.ranges) {
      const own = known.find(({ id, version }) => id === range.id && version === range.version);
      if (own && !isSameJson(own, range))
        throw bundleRefusal('bundle-stock-range-differs', `“${range.name}” version ${range.version}.`);
    }
    return bundle;
  };

  const ownSide = async (projectId: ProjectId): Promise<OwnSide | null> => {
    const stored = await store.loadProject(projectId);
    if (!stored) return null;
    const { document, events } = await load(projectId);
    const migrated = migrateDocument(document);
    if (!migrated.ok) throw new ApiFailure(migrated.code, migrated.message, migrated.path);
    return { stored: document, document: migrated.document, events };
  };

  /** Two that came to the very same state by different changes need no choice. */
  const compare = (there: OwnSide, bundle: ReadBundle): ReturnType<typeof relationOf> => {
    const found = relationOf(there.events, bundle.events);
    const isSameState = isSameJson(there.document, bundle.document);
    if (found.relation === 'parted' && isSameState) return { ...found, relation: 'same' };
    if (found.relation === 'same' && !isSameState && !isSameJson(there.stored, bundle.stored))
      return { ...found, relation: 'parted' };
    return found;
  };

  /** Carries changes out one after another, each on disk before the next; the last leads to `document`. */
  const goOn = async (
    projectId: ProjectId,
    there: OwnSide,
    events: readonly ProjectEvent[],
    document: ProjectDocument,
  ): Promise<void> => {
    let state = there.document;
    for (const [index, event] of events.entries()) {
      const isLast = index === events.length - 1;
      state = isLast ? document : applyPatch(state, event.patch);
      const appended = await store.appendEvent({
        projectId,
        expectedRevision: there.events.length + index,
        event,
        document: state,
        facts: isLast ? projectFactsOf(document) : undefined,
      });
      if (!appended.ok)
        throw new ApiFailure(
          'revision-conflict',
          'This project was changed in another window while the file was taken in. Take the file in again.',
          'bytes',
        );
    }
  };

  const mergeOf = async (projectId: ProjectId, bundle: ReadBundle): Promise<IssueMerge> =>
    mergeIssues((await store.listIssues(projectId)).issues, bundle.issues);

  /** Keeps what the file has of issues and this archive has not, and the numbers given out. */
  const addIssues = async (
    projectId: ProjectId,
    { toAdd }: IssueMerge,
    { lastNumber }: ReadBundle['issues'],
  ): Promise<void> => {
    const { nextNumber } = await store.listIssues(projectId);
    if (toAdd.length === 0 && lastNumber < nextNumber) return;
    if (!(await store.keepBroughtIssues(projectId, { issues: toAdd, lastNumber })))
      throw new ApiFailure(
        'revision-conflict',
        'This project was issued in another window while the file was taken in. Take the file in again.',
        'bytes',
      );
  };

  return {
    /** Everything of a project as one file, on wish without the files that were issued. */
    async exportProject(
      projectId: ProjectId,
      { withoutIssued = false }: { readonly withoutIssued?: boolean | undefined } = {},
      { signal, onProgress }: CallContext = {},
    ) {
      const stopIfAsked = (): void => {
        if (signal?.aborted) throw new ApiFailure('cancelled', 'The call was cancelled.', '');
      };
      const { document, events } = await load(projectId);
      const text = JSON.stringify([document, events]);
      const ranges = (await over.listRanges()).filter(
        ({ id, version }) =>
          (id === document.stockRange.id && version === document.stockRange.version) ||
          text.includes(JSON.stringify({ id, version })),
      );
      const plans = [];
      for (const sha256 of plansNamedIn([document, events])) {
        stopIfAsked();
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
      const { issues, issued } = await collectIssues(store, projectId, { withoutIssued, stopIfAsked });
      const parts = [...plans, ...(issued ?? [])];
      const whole = parts.reduce((sum, one) => sum + one.bytes.byteLength, text.length);
      if (whole > bundleLimits.whole)
        throw new ApiFailure(
          'project-too-large',
          `This project comes to ${Math.ceil(whole / 2 ** 20)} MiB with its plans and issued files; a project file holds ${bundleLimits.whole / 2 ** 20} MiB. Leave the issued files out of it (--without-issued).`,
          'projectId',
        );
      let done = 0;
      const onPart = (byteLength: number): void => {
        stopIfAsked();
        done += byteLength;
        onProgress?.(Math.min(done, whole), whole);
      };
      const bytes = await writeBundle(
        { projectId, name, createdAt, document, events, ranges, plans, issues, issued },
        { madeWith: over.madeWith, madeAt: ports.now(), sha256: ports.sha256, onPart },
      );
      return { fileName: fileNameFor(name, 'project.zip'), mediaType: 'application/zip', bytes };
    },

    /**
     * Takes in a project file. Taking it in again changes nothing, and where the file goes on from where this archive's
     * project is, the project goes on likewise. Where the two have parted, nothing happens unless a person has chosen.
     * Issues are united by their numbers; where a number stands for two different issues, only a copy can be taken in.
     */
    async importProject(
      bytes: Uint8Array,
      choice: ImportChoice,
      context: CallContext = {},
    ): Promise<{
      readonly projectId: ProjectId;
      readonly name: string;
      readonly outcome: ImportOutcome;
      /** How many issues came in with it. */
      readonly issuesAdded: number;
    }> {
      const bundle = await readSafely(bytes, context);
      const { projectId } = bundle.project;
      const { name } = bundle.document.job;
      const { plans, ranges } = bundle;
      const { whole: issues, lastNumber } = bundle.issues;
      const needs = { plans, ranges, issued: { issues, lastNumber }, at: ports.now() };
      if (choice === 'copy') {
        const copy = await keepCopy(bundle.stored, bundle.events, 'Take in a project file as a copy', needs);
        return { ...copy, outcome: 'taken-in-as-copy', issuesAdded: issues.length };
      }
      const there = await ownSide(projectId);
      if (!there) {
        await store.createProject({
          projectId,
          document: bundle.stored,
          at: bundle.project.createdAt,
          events: bundle.events,
          facts: projectFactsOf(bundle.document),
          needs,
        });
        return { projectId, name, outcome: 'taken-in', issuesAdded: issues.length };
      }
      const { relation, common } = compare(there, bundle);
      const merge = await mergeOf(projectId, bundle);
      if (merge.conflicts.length > 0)
        throw bundleRefusal('bundle-issue-differs', `“${name}”, ${conflictWords(merge.conflicts)}.`);
      const issuesAdded = merge.toAdd.length;
      if (relation === 'same' || relation === 'behind') {
        await addIssues(projectId, merge, bundle.issues);
        const outcome = issuesAdded > 0 ? 'issues-added' : 'there-already';
        return { projectId, name, outcome, issuesAdded };
      }
      if (relation === 'parted' && choice !== 'theirs')
        throw bundleRefusal('bundle-project-differs', `“${name}”.`);
      for (const plan of plans) await store.putPlan({ ...plan, at: needs.at });
      for (const range of ranges) await store.putStockRange(range, needs.at);
      if (relation === 'ahead') {
        await goOn(projectId, there, bundle.events.slice(common), bundle.document);
        await addIssues(projectId, merge, bundle.issues);
        return { projectId, name, outcome: 'gone-on', issuesAdded };
      }
      const by = ports.who?.();
      const event: ProjectEvent = {
        kind: 'command',
        label: `Take over the state of the project file of ${bundle.madeAt.slice(0, 10)}`,
        patch: patchBetween(there.document, bundle.document),
        at: ports.now(),
        ...(by ? { by } : {}),
      };
      await goOn(projectId, there, [event], bundle.document);
      await addIssues(projectId, merge, bundle.issues);
      return { projectId, name, outcome: 'theirs-taken', issuesAdded };
    },

    /** A project file beside this archive's project: how they stand to each other and what differs. Writes nothing. */
    async compareProject(bytes: Uint8Array, context: CallContext = {}) {
      const bundle = await readSafely(bytes, context);
      const { projectId } = bundle.project;
      const { name } = bundle.document.job;
      const there = await ownSide(projectId);
      const { relation, common } = there ? compare(there, bundle) : { relation: 'new' as const, common: 0 };
      return {
        projectId,
        name,
        relation,
        common,
        mine: there && sideOf(there.document, there.events, common),
        theirs: sideOf(bundle.document, bundle.events, common),
        ...(there ? differencesOf(there.document, bundle.document) : { differences: [], runs: [] }),
        issues: (there ? await mergeOf(projectId, bundle) : mergeIssues([], bundle.issues)).differences,
      };
    },

    /** Every change of a project, the oldest first, and what was issued in between. */
    async history(projectId: ProjectId) {
      const { document, events } = await load(projectId);
      return projectHistory(document, events, (await store.listIssues(projectId)).issues);
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
