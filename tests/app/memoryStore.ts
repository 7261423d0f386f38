import { createHash } from 'node:crypto';
import type { NewIssue, StoredIssue } from '../../src/app/issue/issuePort.ts';
import { type ProjectEvent, type Store, type StoredProject, StoreError } from '../../src/app/ports.ts';
import type { ProjectFacts } from '../../src/app/search/projectFacts.ts';
import type { SavedSearch } from '../../src/app/search/searchPort.ts';
import { doAgain, emptyHistory, recordStep, takeBack } from '../../src/document/history.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';

const noCounts = {
  changedIn: '',
  tenderIn: '',
  state: '',
  rangeId: '',
  sheets: 0,
  runLengthsMm: [],
  pieces: null,
  stations: [],
};

/** A store without a disk, for tests of what stands above it. Keeps JSON text, so that nothing is shared by reference. */
export const createMemoryStore = (): Store => {
  const projects = new Map<
    ProjectId,
    {
      stored: StoredProject;
      events: ProjectEvent[];
      facts: ProjectFacts | undefined;
      createdAt: string;
      modifiedAt: string;
      isRemoved: boolean;
    }
  >();
  const plans = new Map<string, { fileName: string; bytes: Uint8Array; addedAt: string }>();
  const readings = new Map<string, string | Uint8Array>();
  const ranges = new Map<string, StockRange>();
  const searches = new Map<string, SavedSearch>();
  const issues = new Map<ProjectId, NewIssue[]>();
  const numbersElsewhere = new Map<ProjectId, number>();
  const lastNumberOf = (projectId: ProjectId) =>
    Math.max(issues.get(projectId)?.at(-1)?.number ?? 0, numbersElsewhere.get(projectId) ?? 0);
  const keepBroughtIssues: Store['keepBroughtIssues'] = async (
    projectId,
    { issues: brought, lastNumber },
  ) => {
    const kept = issues.get(projectId) ?? [];
    if (brought.some(({ number }) => kept.some((one) => one.number === number))) return false;
    const all = [...kept, ...brought].sort((one, other) => one.number - other.number);
    issues.set(projectId, all);
    numbersElsewhere.set(projectId, Math.max(lastNumber, numbersElsewhere.get(projectId) ?? 0));
    return true;
  };
  const sha256Of = (bytes: Uint8Array | string) => createHash('sha256').update(bytes).digest('hex');
  const issueOf = ({ inputs, files, ...rest }: NewIssue): StoredIssue => ({
    ...rest,
    inputsSha256: sha256Of(inputs),
    files: files.map(({ bytes, ...entry }) => ({
      ...entry,
      byteLength: bytes.length,
      sha256: sha256Of(bytes),
    })),
  });
  const copy = <Value>(value: Value): Value => JSON.parse(JSON.stringify(value)) as Value;
  const historyOf = (events: readonly ProjectEvent[]) =>
    events.reduce((history, { kind, label, patch }) => {
      if (kind === 'command') return recordStep(history, { label, patch });
      const next = kind === 'undo' ? takeBack(history) : doAgain(history);
      if (!next) throw new Error(`nothing to ${kind}`);
      return next.history;
    }, emptyHistory);
  const listProjects: Store['listProjects'] = async () =>
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
      });
  const appendEvent: Store['appendEvent'] = async ({
    projectId,
    expectedRevision,
    event,
    document,
    facts,
  }) => {
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
    held.events.push(event);
    held.facts = facts;
    return { ok: true, revision: revision + 1 };
  };
  return {
    listProjects,
    createProject: async ({ projectId, document, at, events = [], facts, needs }) => {
      if (projects.has(projectId)) throw new StoreError('project-exists', `there is a project ${projectId}`);
      for (const { sha256, fileName, bytes } of needs?.plans ?? [])
        if (!plans.has(sha256))
          plans.set(sha256, { fileName, bytes: bytes.slice(), addedAt: needs?.at ?? at });
      for (const range of needs?.ranges ?? []) ranges.set(`${range.id} ${range.version}`, range);
      const stored = {
        projectId,
        revision: events.length,
        document: copy(document),
        history: copy(historyOf(events)),
      };
      const modifiedAt = events.at(-1)?.at ?? at;
      projects.set(projectId, {
        stored,
        events: [...events],
        facts,
        createdAt: at,
        modifiedAt,
        isRemoved: false,
      });
      if (needs?.issued) await keepBroughtIssues(projectId, needs.issued);
    },
    loadProject: async (projectId) => {
      const held = projects.get(projectId);
      return held && !held.isRemoved ? copy(held.stored) : null;
    },
    appendEvent,
    addIssue: async ({ projectId, expectedRevision, issue, change }) => {
      const revision = projects.get(projectId)?.stored.revision ?? -1;
      const kept = issues.get(projectId) ?? [];
      if (revision !== expectedRevision || issue.number <= lastNumberOf(projectId))
        return { ok: false, revision };
      issues.set(projectId, [...kept, issue]);
      return change ? appendEvent({ projectId, expectedRevision, ...change }) : { ok: true, revision };
    },
    listIssues: async (projectId) => {
      const kept = issues.get(projectId) ?? [];
      return { issues: kept.map(issueOf), nextNumber: lastNumberOf(projectId) + 1 };
    },
    keepBroughtIssues,
    issueInputs: async (projectId, number) =>
      issues.get(projectId)?.find((one) => one.number === number)?.inputs ?? null,
    issuedBytes: async (projectId, number, fileName) =>
      issues
        .get(projectId)
        ?.find((one) => one.number === number)
        ?.files.find((one) => one.fileName === fileName)?.bytes ?? null,
    removeProject: async (projectId) => {
      const held = projects.get(projectId);
      if (!held || held.isRemoved) return false;
      held.isRemoved = true;
      return true;
    },
    listEvents: async (projectId) => copy(projects.get(projectId)?.events ?? null),
    /** Knows words, states and plans; the other wishes are the archive's, whose tests are its own. */
    searchProjects: async ({ words, states = [], planSha256, offset, most }) => {
      const found = (await listProjects()).flatMap((project) => {
        const facts = projects.get(project.projectId)?.facts;
        const isFound =
          facts &&
          words.every((word) => facts.words.some((one) => one.startsWith(word))) &&
          (states.length === 0 || states.some((state) => state === project.state)) &&
          (planSha256 === undefined || facts.plans.some(({ sha256 }) => sha256 === planSha256));
        return isFound ? [{ project, facts }] : [];
      });
      return {
        total: found.length,
        projects: found.slice(offset, offset + most),
        states: [],
        clients: [],
      };
    },
    runCandidates: async () => [],
    staleProjects: async (factsVersion, most) =>
      [...projects.values()]
        .filter(({ facts, isRemoved }) => !isRemoved && facts?.version !== factsVersion)
        .slice(0, most)
        .map(({ stored }) => copy(stored)),
    putFacts: async ({ projectId, facts }) => {
      const held = projects.get(projectId);
      if (held) held.facts = facts;
    },
    putPlanWords: async () => {},
    listSavedSearches: async () => [...searches.values()],
    saveSearch: async (saved) => {
      searches.set(saved.name, saved);
    },
    removeSavedSearch: async (name) => searches.delete(name),
    projectsPastRetention: async () => [],
    previewPurge: async (projectId) => {
      const held = projects.get(projectId);
      const project = (await listProjects()).find((one) => one.projectId === projectId);
      if (!held || !project) return null;
      return {
        project,
        retainUntil: '',
        isRemoved: held.isRemoved,
        goes: { changes: held.events.length, people: [], issues: 0, plans: [], savedSearches: [] },
        stays: noCounts,
        sameClient: 0,
        copies: [],
      };
    },
    purgeProject: async ({ projectId }) =>
      projects.delete(projectId)
        ? { counts: noCounts, isErased: true, advice: '', copiesRemoved: [], copiesLeft: [] }
        : null,
    purgedProjects: async () => [],
    health: async () => ({
      state: 'sound',
      problems: [],
      advice: '',
      notices: [],
      place: 'memory',
      backups: [],
    }),
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
