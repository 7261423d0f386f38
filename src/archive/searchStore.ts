import type { ProjectRow } from '../app/projectRow.ts';
import type { ProjectFacts } from '../app/search/projectFacts.ts';
import type { ProjectSearch } from '../app/search/projectSearch.ts';
import type { FacetCount, FoundPage, SearchStore, StoreSearch } from '../app/search/searchPort.ts';
import type { ProjectId } from '../document/ids.ts';
import { type ArchiveConnection, BrokenContentError } from './archiveConnection.ts';
import { hasPlan } from './planStore.ts';
import { type ProjectRecord, rowOf } from './projectRecord.ts';
import { contentDigest, sameDigest, storableText } from './rowDigest.ts';
import { facetQuery, pageQuery, runCandidatesQuery, type SearchQuery } from './searchQueries.ts';
import {
  createSearchRows,
  isSameRunRows,
  markOf,
  planWordsDigest,
  type RunRow,
  runRowsOf,
  type SearchRecord,
} from './searchRows.ts';
import { changeTally, digestOfRow, isRowIntact, verifyRows } from './talliedTables.ts';

interface SavedRecord {
  readonly search_key: number;
  readonly name: string;
  readonly search: string;
  readonly saved_at: string;
  readonly digest: Uint8Array;
}

const clientsMost = 20;
/** Searches differ by which wishes they have; as many statements stay prepared. */
const statementsMost = 60;

/** The part of the store that finds projects again. */
export const createSearchStore = (archive: ArchiveConnection): SearchStore => {
  const { database } = archive;
  const statements = new Map<string, ReturnType<typeof database.prepare<unknown[], unknown>>>();
  const all = <Row>({ sql, values }: SearchQuery): readonly Row[] => {
    const statement = statements.get(sql) ?? database.prepare<unknown[], unknown>(sql);
    statements.delete(sql);
    statements.set(sql, statement);
    const oldest = statements.keys().next();
    if (statements.size > statementsMost && !oldest.done) statements.delete(oldest.value);
    return statement.all(...values) as Row[];
  };
  const one = <Row>(sql: string, ...values: readonly (string | number)[]): Row | undefined =>
    all<Row>({ sql, values })[0];

  const hasTables = (): boolean =>
    one(`SELECT 1 FROM sqlite_schema WHERE name = 'search_rows'`) !== undefined;

  const hasRunRows = (): boolean => one(`SELECT 1 FROM sqlite_schema WHERE name = 'run_rows'`) !== undefined;

  const readFacts = (record: SearchRecord): ProjectFacts => {
    const text = one<{ facts: string }>(
      'SELECT facts FROM search_facts WHERE project_key = ?',
      record.project_key,
    )?.facts;
    if (text === undefined || !sameDigest(contentDigest(text), record.facts_digest))
      throw new BrokenContentError('what a project is found by is not as it was written');
    return JSON.parse(text) as ProjectFacts;
  };

  const readProject = (record: SearchRecord): ProjectRow => {
    const project = one<ProjectRecord>('SELECT * FROM projects WHERE project_key = ?', record.project_key);
    if (!project || !isRowIntact('projects', project) || !isRowIntact('search_rows', record))
      throw new BrokenContentError('the entry of a project is not as it was written');
    return rowOf(project);
  };

  const isWhole = (record: SearchRecord): boolean => {
    try {
      readProject(record);
      readFacts(record);
      return true;
    } catch (error) {
      if (error instanceof BrokenContentError) return false;
      throw error;
    }
  };

  const find = (search: StoreSearch): FoundPage => {
    const records = all<SearchRecord>(pageQuery(search));
    const states = all<FacetCount>(facetQuery(search, 'state'));
    const clients = all<FacetCount>(facetQuery(search, 'client'))
      .filter(({ value }) => value !== '')
      .sort((a, b) => b.count - a.count || (a.value < b.value ? -1 : 1));
    const wanted = search.states && search.states.length > 0 ? new Set<string>(search.states) : null;
    // In a damaged archive whatever is whole can still be found.
    const shown = archive.problems().length > 0 ? records.filter(isWhole) : records;
    return {
      total: states
        .filter(({ value }) => wanted?.has(value) ?? true)
        .reduce((total, { count }) => total + count, 0),
      projects: shown.map((record) => ({ project: readProject(record), facts: readFacts(record) })),
      states,
      clients: clients.slice(0, clientsMost),
    };
  };

  const listSaved = (): readonly SavedRecord[] => {
    if (!hasTables()) return [];
    const records = all<SavedRecord>({ sql: 'SELECT * FROM saved_searches ORDER BY name', values: [] });
    const [problem] = verifyRows(database, 'saved_searches', records);
    if (problem !== undefined) throw new BrokenContentError(problem);
    return records;
  };

  const takeAwaySaved = (name: string): boolean => {
    const kept = one<SavedRecord>('SELECT * FROM saved_searches WHERE name = ?', name);
    if (!kept) return false;
    database.prepare('DELETE FROM saved_searches WHERE search_key = ?').run(kept.search_key);
    changeTally(database, 'saved_searches', { before: kept.digest, after: null });
    return true;
  };

  return {
    searchProjects: async (search) => archive.read(() => (hasTables() ? find(search) : null)),

    runCandidates: async (sought) =>
      archive.read(() => {
        if (!hasRunRows()) return null;
        const found = all<{ project_key: number; run_number: number }>(runCandidatesQuery(sought));
        return found.flatMap(({ project_key, run_number: runNumber }) => {
          const record = one<SearchRecord>('SELECT * FROM search_rows WHERE project_key = ?', project_key);
          if (!record || record.is_removed === 1) return [];
          if (archive.problems().length > 0 && !isWhole(record)) return [];
          return [{ project: readProject(record), facts: readFacts(record), runNumber }];
        });
      }),

    staleProjects: async (factsVersion, most) =>
      archive.read(() => {
        if (!hasTables()) return [];
        return all<{ project_id: ProjectId; revision: number; document: string }>({
          sql: `SELECT project_id, revision, document FROM projects JOIN documents USING (project_key)
                WHERE removed_at IS NULL AND project_key IN (
                  SELECT project_key FROM stale_facts
                  UNION SELECT project_key FROM search_rows WHERE facts_version < ?
                  UNION SELECT project_key FROM search_rows WHERE facts_version > ?)
                LIMIT ?`,
          values: [factsVersion, factsVersion, most],
        }).map(({ project_id: projectId, revision, document }) => ({
          projectId,
          revision,
          document: JSON.parse(document) as unknown,
        }));
      }),

    putFacts: async ({ projectId, revision, facts }) =>
      archive.write(() => {
        const project = one<ProjectRecord>('SELECT * FROM projects WHERE project_id = ?', projectId);
        if (project?.revision === revision && project.removed_at === null)
          createSearchRows(database).keep(project, facts);
      }),

    putPlanWords: async ({ sha256, page, words }) =>
      archive.write(() => {
        const named = one<{ found: 1 }>(
          'SELECT 1 AS found FROM project_search WHERE project_search MATCH ? LIMIT 1',
          `{marks} : "${markOf('plan', sha256)}"`,
        );
        // It may have been purged while it was read.
        if (!named && !hasPlan(database, sha256)) return;
        const text = storableText(words.join(' '));
        const kept = one<{ words: string }>(
          'SELECT words FROM plan_words WHERE sha256 = ? AND page = ?',
          sha256,
          page,
        );
        if (kept?.words === text) return;
        database
          .prepare(
            `INSERT INTO plan_words (sha256, page, words, digest) VALUES (?, ?, ?, ?)
             ON CONFLICT (sha256, page) DO UPDATE SET words = excluded.words, digest = excluded.digest`,
          )
          .run(sha256, page, text, planWordsDigest(sha256, page, text));
        database
          .prepare(
            `INSERT OR IGNORE INTO stale_facts SELECT rowid FROM project_search WHERE project_search MATCH ?`,
          )
          .run(`{marks} : "${markOf('plan', sha256)}"`);
      }),

    listSavedSearches: async () =>
      archive.read(() =>
        listSaved().map(({ name, search }) => ({ name, search: JSON.parse(search) as ProjectSearch })),
      ),

    saveSearch: async ({ name, search }, at) =>
      archive.write(() => {
        takeAwaySaved(storableText(name));
        const record = {
          search_key:
            (one<{ last: number | null }>('SELECT max(search_key) AS last FROM saved_searches')?.last ?? 0) +
            1,
          name: storableText(name),
          search: storableText(JSON.stringify(search)),
          saved_at: at,
        };
        const digest = digestOfRow('saved_searches', record);
        database
          .prepare(
            `INSERT INTO saved_searches (search_key, name, search, saved_at, digest)
             VALUES (:search_key, :name, :search, :saved_at, :digest)`,
          )
          .run({ ...record, digest });
        changeTally(database, 'saved_searches', { before: null, after: digest });
      }),

    removeSavedSearch: async (name) => archive.write(() => takeAwaySaved(storableText(name))),
  };
};

/** Whether what projects are found by is what their facts say: the problems found. Reads everything. */
export const searchProblems = (archive: ArchiveConnection): readonly string[] =>
  archive.read(() => {
    const { database } = archive;
    const problems: string[] = [];
    const rows = createSearchRows(database);
    const records = database
      .prepare<
        [],
        SearchRecord & { facts: string | null; words: string | null; plan_words: string; marks: string }
      >(
        `SELECT search_rows.*, search_facts.facts, words, plan_words, marks FROM search_rows
         LEFT JOIN search_facts USING (project_key)
         LEFT JOIN project_search ON project_search.rowid = project_key
         WHERE is_removed = 0 AND project_key NOT IN (SELECT project_key FROM stale_facts)`,
      )
      .all();
    const hasRunRows = database.prepare(`SELECT 1 FROM sqlite_schema WHERE name = 'run_rows'`).get();
    const runRows = hasRunRows
      ? database.prepare<[number], RunRow>(
          'SELECT run_number, straights, length_mm FROM run_rows WHERE project_key = ? ORDER BY run_number',
        )
      : null;
    for (const { facts, words, plan_words, marks, ...record } of records) {
      if (facts === null || !sameDigest(contentDigest(facts), record.facts_digest)) {
        problems.push('what a project is found by is not as it was written');
        continue;
      }
      const runs = runRows?.all(record.project_key);
      if (runs && !isSameRunRows(runs, runRowsOf(JSON.parse(facts) as ProjectFacts)))
        problems.push('the runs that others are compared with are not as their projects say');
      const due = rows.indexedWords(JSON.parse(facts) as ProjectFacts);
      if (due.words !== words || due.plan_words !== plan_words || due.marks !== marks)
        problems.push('the index that projects are found by is not as their facts say');
    }
    return [...new Set(problems)];
  });
