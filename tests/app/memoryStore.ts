import type { Store, StoredProject } from '../../src/app/ports.ts';
import { doAgain, emptyHistory, recordStep, takeBack } from '../../src/document/history.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';

/** A store without a disk, for tests of what stands above it. Keeps JSON text, so that nothing is shared by reference. */
export const createMemoryStore = (): Store => {
  const projects = new Map<
    ProjectId,
    { stored: StoredProject; createdAt: string; modifiedAt: string; isRemoved: boolean }
  >();
  const plans = new Map<string, { fileName: string; bytes: Uint8Array; addedAt: string }>();
  const readings = new Map<string, string | Uint8Array>();
  const ranges = new Map<string, StockRange>();
  const copy = <Value>(value: Value): Value => JSON.parse(JSON.stringify(value)) as Value;
  return {
    listProjects: async () =>
      [...projects.values()]
        .filter(({ isRemoved }) => !isRemoved)
        .sort((one, other) => (one.modifiedAt < other.modifiedAt ? 1 : -1))
        .map(({ stored, createdAt, modifiedAt }) => {
          const document = stored.document as {
            job: Record<string, string>;
            sheetIds: string[];
            runIds: string[];
          };
          const { job } = document;
          return {
            projectId: stored.projectId,
            name: job['name'] ?? '',
            jobNumber: job['number'] ?? '',
            client: job['client'] ?? '',
            site: job['site'] ?? '',
            state: job['state'] ?? '',
            tenderDate: job['tenderDate'] ?? '',
            sheets: document.sheetIds.length,
            runs: document.runIds.length,
            createdAt,
            modifiedAt,
          };
        }),
    createProject: async ({ projectId, document, at }) => {
      const stored = { projectId, revision: 0, document: copy(document), history: emptyHistory };
      projects.set(projectId, { stored, createdAt: at, modifiedAt: at, isRemoved: false });
    },
    loadProject: async (projectId) => {
      const held = projects.get(projectId);
      return held && !held.isRemoved ? copy(held.stored) : null;
    },
    appendEvent: async ({ projectId, expectedRevision, event, document }) => {
      const held = projects.get(projectId);
      if (!held) throw new Error(`no project ${projectId}`);
      const { revision, history } = held.stored;
      if (revision !== expectedRevision) return { ok: false, revision };
      const { label, patch } = event;
      const next =
        event.kind === 'command'
          ? recordStep(history, { label, patch })
          : (event.kind === 'undo' ? takeBack(history) : doAgain(history))?.history;
      if (!next) throw new Error(`nothing to ${event.kind}`);
      held.stored = { projectId, revision: revision + 1, document: copy(document), history: copy(next) };
      held.modifiedAt = event.at;
      return { ok: true, revision: revision + 1 };
    },
    removeProject: async (projectId) => {
      const held = projects.get(projectId);
      if (!held || held.isRemoved) return false;
      held.isRemoved = true;
      return true;
    },
    putPlan: async ({ sha256, fileName, bytes, at }) => {
      if (!plans.has(sha256)) plans.set(sha256, { fileName, bytes: bytes.slice(), addedAt: at });
    },
    getPlan: async (sha256) => {
      const plan = plans.get(sha256);
      if (!plan) return null;
      const { fileName, bytes, addedAt } = plan;
      return { plan: { sha256, fileName, byteLength: bytes.byteLength, addedAt }, bytes: bytes.slice() };
    },
    putReading: async (key, reading) => {
      readings.set(JSON.stringify(key), reading);
    },
    getReading: async (key) => readings.get(JSON.stringify(key)) ?? null,
    listStockRanges: async () => [...ranges.values()],
    putStockRange: async (range) => {
      ranges.set(`${range.id} ${range.version}`, range);
    },
  };
};
