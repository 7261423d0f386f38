import type { Statement } from 'better-sqlite3';
import { type ProjectEvent, type Store, StoreError } from '../app/ports.ts';
import type { History } from '../document/history.ts';
import type { Patch } from '../document/patch.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import { type ArchiveConnection, BrokenContentError } from './archiveConnection.ts';
import { keepBrought, keepIssue } from './issueStore.ts';
import { keepPlan, keepStockRange } from './planStore.ts';
import { type ProjectRecord, rowOf } from './projectRecord.ts';
import { rebuildHistory } from './rebuildHistory.ts';
import { contentDigest, rowDigest, sameDigest, storableText } from './rowDigest.ts';
import { createSearchRows, type SearchRows } from './searchRows.ts';
import { changeTally, digestOfRow, isRowIntact, verifyRows, verifyTable } from './talliedTables.ts';

interface EventRecord {
  readonly revision: number;
  readonly kind: ProjectEvent['kind'];
  readonly label: string;
  readonly patch: string;
  readonly at: string;
  /** Not there in an archive of version 1. */
  readonly made_by?: string | null;
  readonly digest: Uint8Array;
}

/** The statements that every opened project and every command pass through; tests assert how SQLite plans them. */
export const projectQueries = {
  list: `SELECT * FROM projects WHERE removed_at IS NULL ORDER BY change_number DESC`,
  find: `SELECT * FROM projects WHERE project_id = ?`,
  document: `SELECT document FROM documents WHERE project_key = ?`,
  events: `SELECT * FROM events WHERE project_key = ? ORDER BY revision`,
  lastChange: `SELECT max(change_number) AS last FROM projects`,
} as const;

const replaceProject = `
  UPDATE projects SET name = :name, job_number = :job_number, client = :client, site = :site, state = :state,
    tender_date = :tender_date, sheets = :sheets, runs = :runs, modified_at = :modified_at,
    removed_at = :removed_at, change_number = :change_number, revision = :revision,
    last_event_digest = :last_event_digest, document_digest = :document_digest, digest = :digest
  WHERE project_key = :project_key`;

const insertProject = `
  INSERT INTO projects (project_key, project_id, name, job_number, client, site, state, tender_date, sheets, runs,
    created_at, modified_at, removed_at, change_number, revision, last_event_digest, document_digest, digest)
  VALUES (:project_key, :project_id, :name, :job_number, :client, :site, :state, :tender_date, :sheets, :runs,
    :created_at, :modified_at, :removed_at, :change_number, :revision, :last_event_digest, :document_digest, :digest)`;

const noEvents = Buffer.alloc(0);

const summaryOf = ({ job, sheetIds, runIds }: ProjectDocument) => ({
  name: storableText(job.name),
  job_number: storableText(job.number),
  client: storableText(job.client),
  site: storableText(job.site),
  state: job.state,
  tender_date: job.tenderDate,
  sheets: sheetIds.length,
  runs: runIds.length,
});

/** Each event's digest covers the one before it, so that no event can go missing or change its place. */
const eventDigest = (before: Uint8Array, projectId: string, event: Omit<EventRecord, 'digest'>): Buffer =>
  rowDigest([
    before,
    projectId,
    event.revision,
    event.kind,
    event.label,
    event.patch,
    event.at,
    // Changes from before it was noted who made them keep the digest that they have.
    ...(typeof event.made_by === 'string' ? [event.made_by] : []),
  ]);

const readEvents = function* (
  project: ProjectRecord,
  records: Iterable<EventRecord>,
): Generator<ProjectEvent> {
  let before: Uint8Array = noEvents;
  let revision = 0;
  for (const record of records) {
    revision += 1;
    const isNext = record.revision === revision;
    if (!isNext || !sameDigest(record.digest, eventDigest(before, project.project_id, record)))
      throw new BrokenContentError(
        `change ${revision} of the project "${project.name}" is not as it was written`,
      );
    before = record.digest;
    const { kind, label, at, made_by: by } = record;
    yield { kind, label, patch: JSON.parse(record.patch) as Patch, at, ...(by ? { by } : {}) };
  }
  if (revision !== project.revision || !sameDigest(before, project.last_event_digest))
    throw new BrokenContentError(
      `the project "${project.name}" should have ${project.revision} changes, of which ${revision} were found`,
    );
};

const missing = (projectId: string): StoreError =>
  new StoreError('project-missing', `There is no project ${projectId} in the archive any more.`);

/** Takes back a transaction that brings an issue under a number given out here. */
class NumberTaken extends Error {}

/** The part of the store that keeps projects: their list, their documents, their events. */
export const createProjectStore = (
  archive: ArchiveConnection,
): Pick<
  Store,
  | 'listProjects'
  | 'createProject'
  | 'loadProject'
  | 'appendEvent'
  | 'addIssue'
  | 'keepBroughtIssues'
  | 'listEvents'
  | 'removeProject'
> => {
  const { database } = archive;
  const list = database.prepare<[], ProjectRecord>(projectQueries.list);
  const find = database.prepare<[string], ProjectRecord>(projectQueries.find);
  const findDocument = database.prepare<[number], { document: string }>(projectQueries.document);
  const findEvents = database.prepare<[number], EventRecord>(projectQueries.events);
  const lastChange = database.prepare<[], { last: number | null }>(projectQueries.lastChange);
  const insert = database.prepare(insertProject);
  const replace = database.prepare(replaceProject);
  const insertDocument = database.prepare('INSERT INTO documents (project_key, document) VALUES (?, ?)');
  const replaceDocument = database.prepare('UPDATE documents SET document = ? WHERE project_key = ?');
  let writers: { readonly insertEvent: Statement; readonly searchRows: SearchRows } | null = null;
  /** Made when first written: an archive of an older version, which can only be read, has not all that they name. */
  const writing = () => {
    writers ??= {
      insertEvent: database.prepare(
        `INSERT INTO events (project_key, revision, kind, label, patch, at, made_by, digest)
         VALUES (:project_key, :revision, :kind, :label, :patch, :at, :made_by, :digest)`,
      ),
      searchRows: createSearchRows(database),
    };
    return writers;
  };

  /** Writes an event after the one whose digest is given; answers its own. */
  const addEvent = (
    project: Pick<ProjectRecord, 'project_key' | 'project_id'>,
    before: Uint8Array,
    revision: number,
    event: ProjectEvent,
  ): Buffer => {
    const record = {
      revision,
      kind: event.kind,
      label: storableText(event.label),
      patch: JSON.stringify(event.patch),
      at: event.at,
      made_by: event.by === undefined ? null : storableText(event.by),
    };
    const digest = eventDigest(before, project.project_id, record);
    writing().insertEvent.run({ ...record, project_key: project.project_key, digest });
    return digest;
  };

  /** The project as last written; null when there is none, which the whole table has then confirmed. */
  const findIntact = (projectId: string): ProjectRecord | null => {
    const record = find.get(projectId);
    if (!record) {
      const [problem] = verifyTable(database, 'projects');
      if (problem !== undefined) throw new BrokenContentError(problem);
      const all = database.prepare<[], { project_id: string }>('SELECT project_id FROM projects NOT INDEXED');
      for (const row of all.iterate())
        if (row.project_id === projectId) throw new BrokenContentError('the index of the projects is broken');
      return null;
    }
    if (!isRowIntact('projects', record))
      throw new BrokenContentError(`the entry of the project "${record.name}" is not as it was written`);
    return record.removed_at === null ? record : null;
  };

  const nextChange = (): number => (lastChange.get()?.last ?? 0) + 1;

  const put = (record: Omit<ProjectRecord, 'digest'>, before: ProjectRecord | null): void => {
    const digest = digestOfRow('projects', record);
    (before ? replace : insert).run({ ...record, digest });
    changeTally(database, 'projects', { before: before?.digest ?? null, after: digest });
  };

  const listIntact = (): readonly ProjectRecord[] => {
    const records = list.all();
    if (archive.problems().length > 0) return records.filter((record) => isRowIntact('projects', record));
    const removed = database
      .prepare<[], ProjectRecord>('SELECT * FROM projects NOT INDEXED WHERE removed_at IS NOT NULL')
      .all();
    const [problem] = verifyRows(database, 'projects', [...records, ...removed]);
    if (problem !== undefined) throw new BrokenContentError(problem);
    return records;
  };

  const readDocument = (project: ProjectRecord): unknown => {
    const text = findDocument.get(project.project_key)?.document;
    if (text === undefined || !sameDigest(contentDigest(text), project.document_digest))
      throw new BrokenContentError(`the project "${project.name}" is not as it was written`);
    return JSON.parse(text);
  };

  /** Writes a change inside the caller's transaction. */
  const append = ({
    projectId,
    expectedRevision,
    event,
    document,
    facts,
  }: Parameters<Store['appendEvent']>[0]): Awaited<ReturnType<Store['appendEvent']>> => {
    const project = findIntact(projectId);
    if (!project) throw missing(projectId);
    if (project.revision !== expectedRevision) return { ok: false, revision: project.revision };
    const revision = expectedRevision + 1;
    const digest = addEvent(project, project.last_event_digest, revision, event);
    const text = JSON.stringify(document);
    replaceDocument.run(text, project.project_key);
    const record = {
      ...project,
      ...summaryOf(document),
      modified_at: event.at,
      change_number: nextChange(),
      revision,
      last_event_digest: digest,
      document_digest: contentDigest(text),
    };
    put(record, project);
    writing().searchRows.keep(record, facts);
    return { ok: true, revision };
  };

  return {
    listProjects: async () => archive.read(() => listIntact().map(rowOf)),

    createProject: async ({ projectId, document, at, events = [], facts, needs }) =>
      archive.write(() => {
        const known = find.get(projectId);
        if (known && known.removed_at !== null && known.name === '')
          throw new StoreError(
            'project-purged',
            `This very project was purged from the archive on ${known.removed_at.slice(0, 10)}, for good. Where it is to be kept again all the same, take it in as a copy.`,
          );
        if (known)
          throw new StoreError('project-exists', `There is a project ${projectId} in the archive already.`);
        // Only now: of a project that was purged, its plans must not come back either.
        for (const plan of needs?.plans ?? []) keepPlan(database, { ...plan, at: needs?.at ?? at });
        for (const range of needs?.ranges ?? []) keepStockRange(database, range, needs?.at ?? at);
        const text = JSON.stringify(document);
        const { key } = database
          .prepare<[], { key: number }>('SELECT coalesce(max(project_key), 0) + 1 AS key FROM projects')
          .get()!;
        const own = { project_key: key, project_id: projectId };
        const record = {
          ...summaryOf(document),
          ...own,
          created_at: at,
          modified_at: events.at(-1)?.at ?? at,
          removed_at: null,
          change_number: nextChange(),
          revision: events.length,
          document_digest: contentDigest(text),
        };
        // The events hang on the project's row, whose last digest is known only after them.
        put({ ...record, last_event_digest: noEvents }, null);
        insertDocument.run(key, text);
        let last: Uint8Array = noEvents;
        for (const [index, event] of events.entries()) last = addEvent(own, last, index + 1, event);
        if (events.length > 0) put({ ...record, last_event_digest: last }, find.get(projectId)!);
        writing().searchRows.keep(record, facts);
        if (needs?.issued && !keepBrought(database, key, needs.issued))
          throw new Error('Two issues of one number were brought.');
      }),

    loadProject: async (projectId) =>
      archive.read(() => {
        const project = findIntact(projectId);
        if (!project) return null;
        const history: History = rebuildHistory(readEvents(project, findEvents.iterate(project.project_key)));
        return { projectId, revision: project.revision, document: readDocument(project), history };
      }),

    appendEvent: async (change) => archive.write(() => append(change)),

    addIssue: async ({ projectId, expectedRevision, issue, change }) =>
      archive.write(() => {
        const project = findIntact(projectId);
        if (!project) throw missing(projectId);
        const revision = project.revision;
        if (revision !== expectedRevision || !keepIssue(database, project.project_key, issue))
          return { ok: false, revision };
        return change ? append({ projectId, expectedRevision, ...change }) : { ok: true, revision };
      }),

    keepBroughtIssues: async (projectId, brought) => {
      try {
        archive.write(() => {
          const project = findIntact(projectId);
          if (!project) throw missing(projectId);
          // Thrown, so that those kept before it are not kept.
          if (!keepBrought(database, project.project_key, brought)) throw new NumberTaken();
        });
        return true;
      } catch (error) {
        if (error instanceof NumberTaken) return false;
        throw error;
      }
    },

    listEvents: async (projectId) =>
      archive.read(() => {
        const project = findIntact(projectId);
        return project && [...readEvents(project, findEvents.iterate(project.project_key))];
      }),

    removeProject: async (projectId, at) =>
      archive.write(() => {
        const project = findIntact(projectId);
        if (!project) return false;
        put({ ...project, removed_at: at, change_number: nextChange() }, project);
        writing().searchRows.remove(project.project_key);
        return true;
      }),
  };
};
