import { type ProjectEvent, type ProjectRow, type Store, StoreError } from '../app/ports.ts';
import type { History } from '../document/history.ts';
import type { ProjectId } from '../document/ids.ts';
import type { Patch } from '../document/patch.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import { type ArchiveConnection, BrokenContentError } from './archiveConnection.ts';
import { rebuildHistory } from './rebuildHistory.ts';
import { contentDigest, rowDigest, sameDigest, storableText } from './rowDigest.ts';
import { changeTally, digestOfRow, isRowIntact, verifyRows, verifyTable } from './talliedTables.ts';

interface ProjectRecord {
  readonly project_key: number;
  readonly project_id: string;
  readonly name: string;
  readonly job_number: string;
  readonly client: string;
  readonly site: string;
  readonly state: string;
  readonly tender_date: string;
  readonly sheets: number;
  readonly runs: number;
  readonly created_at: string;
  readonly modified_at: string;
  readonly removed_at: string | null;
  readonly change_number: number;
  readonly revision: number;
  readonly last_event_digest: Uint8Array;
  readonly document_digest: Uint8Array;
  readonly digest: Uint8Array;
}

interface EventRecord {
  readonly revision: number;
  readonly kind: ProjectEvent['kind'];
  readonly label: string;
  readonly patch: string;
  readonly at: string;
  readonly digest: Uint8Array;
}

/** The statements that every opened project and every command pass through; tests assert how SQLite plans them. */
export const projectQueries = {
  list: `SELECT * FROM projects WHERE removed_at IS NULL ORDER BY change_number DESC`,
  find: `SELECT * FROM projects WHERE project_id = ?`,
  document: `SELECT document FROM documents WHERE project_key = ?`,
  events: `SELECT revision, kind, label, patch, at, digest FROM events WHERE project_key = ? ORDER BY revision`,
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

const rowOf = (record: ProjectRecord): ProjectRow => ({
  projectId: record.project_id as ProjectId,
  name: record.name,
  jobNumber: record.job_number,
  client: record.client,
  site: record.site,
  state: record.state,
  tenderDate: record.tender_date,
  sheets: record.sheets,
  runs: record.runs,
  createdAt: record.created_at,
  modifiedAt: record.modified_at,
});

/** Each event's digest covers the one before it, so that no event can go missing or change its place. */
const eventDigest = (before: Uint8Array, projectId: string, event: Omit<EventRecord, 'digest'>): Buffer =>
  rowDigest([before, projectId, event.revision, event.kind, event.label, event.patch, event.at]);

const readEvents = function* (
  project: ProjectRecord,
  records: Iterable<EventRecord>,
): Generator<Pick<ProjectEvent, 'kind' | 'label' | 'patch'>> {
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
    yield { kind: record.kind, label: record.label, patch: JSON.parse(record.patch) as Patch };
  }
  if (revision !== project.revision || !sameDigest(before, project.last_event_digest))
    throw new BrokenContentError(
      `the project "${project.name}" should have ${project.revision} changes, of which ${revision} were found`,
    );
};

/** The part of the store that keeps projects: their list, their documents, their events. */
export const createProjectStore = (
  archive: ArchiveConnection,
): Pick<Store, 'listProjects' | 'createProject' | 'loadProject' | 'appendEvent' | 'removeProject'> => {
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
  const insertEvent = database.prepare(
    'INSERT INTO events (project_key, revision, kind, label, patch, at, digest) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );

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

  return {
    listProjects: async () => archive.read(() => listIntact().map(rowOf)),

    createProject: async ({ projectId, document, at }) =>
      archive.write(() => {
        if (find.get(projectId))
          throw new StoreError('project-exists', `There is a project ${projectId} in the archive already.`);
        const text = JSON.stringify(document);
        const { key } = database
          .prepare<[], { key: number }>('SELECT coalesce(max(project_key), 0) + 1 AS key FROM projects')
          .get()!;
        put(
          {
            ...summaryOf(document),
            project_key: key,
            project_id: projectId,
            created_at: at,
            modified_at: at,
            removed_at: null,
            change_number: nextChange(),
            revision: 0,
            last_event_digest: noEvents,
            document_digest: contentDigest(text),
          },
          null,
        );
        insertDocument.run(key, text);
      }),

    loadProject: async (projectId) =>
      archive.read(() => {
        const project = findIntact(projectId);
        if (!project) return null;
        const history: History = rebuildHistory(readEvents(project, findEvents.iterate(project.project_key)));
        return { projectId, revision: project.revision, document: readDocument(project), history };
      }),

    appendEvent: async ({ projectId, expectedRevision, event, document }) =>
      archive.write(() => {
        const project = findIntact(projectId);
        if (!project)
          throw new StoreError(
            'project-missing',
            `There is no project ${projectId} in the archive any more.`,
          );
        if (project.revision !== expectedRevision) return { ok: false, revision: project.revision };
        const revision = expectedRevision + 1;
        const record = {
          ...event,
          label: storableText(event.label),
          patch: JSON.stringify(event.patch),
          revision,
        };
        const digest = eventDigest(project.last_event_digest, projectId, record);
        const text = JSON.stringify(document);
        insertEvent.run(
          project.project_key,
          revision,
          record.kind,
          record.label,
          record.patch,
          record.at,
          digest,
        );
        replaceDocument.run(text, project.project_key);
        put(
          {
            ...project,
            ...summaryOf(document),
            modified_at: event.at,
            change_number: nextChange(),
            revision,
            last_event_digest: digest,
            document_digest: contentDigest(text),
          },
          project,
        );
        return { ok: true, revision };
      }),

    removeProject: async (projectId, at) =>
      archive.write(() => {
        const project = findIntact(projectId);
        if (!project) return false;
        put({ ...project, removed_at: at, change_number: nextChange() }, project);
        return true;
      }),
  };
};
