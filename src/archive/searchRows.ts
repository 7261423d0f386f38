import type { Database, Statement } from 'better-sqlite3';
import { type ProjectFacts, runLengthMm } from '../app/search/projectFacts.ts';
import { BrokenContentError } from './archiveConnection.ts';
import { contentDigest, rowDigest, sameDigest, storableText } from './rowDigest.ts';
import { changeTally, columnsOf, digestOfRow } from './talliedTables.ts';

/** One project as searches filter and sort it. */
export interface SearchRecord {
  readonly project_key: number;
  readonly revision: number;
  readonly facts_version: number;
  readonly is_removed: 0 | 1;
  readonly change_number: number;
  readonly modified_at: string;
  readonly name_key: string;
  readonly number_key: string;
  readonly client: string;
  readonly client_key: string;
  readonly state: string;
  readonly tender_date: string;
  readonly retain_until: string;
  readonly range_id: string;
  readonly run_lengths_mm: string;
  readonly shortest_run_mm: number | null;
  readonly longest_run_mm: number | null;
  readonly total_length_mm: number | null;
  readonly pieces: number | null;
  readonly facts_digest: Uint8Array;
  readonly digest: Uint8Array;
}

/** What a search row takes over from the project's own. */
export interface SearchedProject {
  readonly project_key: number;
  readonly revision: number;
  readonly change_number: number;
  readonly modified_at: string;
  readonly client: string;
  readonly state: string;
  readonly tender_date: string;
}

interface IndexedWords {
  readonly words: string;
  readonly plan_words: string;
  readonly marks: string;
}

/** An exact value as one word of letters and digits, so that it is found whole and never by a part. */
export const markOf = (kind: 'plan' | 'station' | 'range', value: string): string =>
  `${kind}${Buffer.from(value, 'utf8').toString('hex')}`;

export const planWordsDigest = (sha256: string, page: number, words: string): Buffer =>
  rowDigest([sha256, page, words]);

const sum = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((total, value) => total + value, 0);

const columns = columnsOf('search_rows');

/** The search row that a project's facts come to. */
const recordOf = (
  project: SearchedProject,
  facts: ProjectFacts,
  factsDigest: Uint8Array,
): Omit<SearchRecord, 'digest'> => {
  const lengths = facts.runs.flatMap((run) => runLengthMm(run) ?? []);
  return {
    project_key: project.project_key,
    revision: project.revision,
    facts_version: facts.version,
    is_removed: 0,
    change_number: project.change_number,
    modified_at: project.modified_at,
    name_key: storableText(facts.nameKey),
    number_key: storableText(facts.numberKey),
    client: project.client,
    client_key: storableText(facts.clientKey),
    state: project.state,
    tender_date: project.tender_date,
    retain_until: facts.retainUntil,
    range_id: storableText(facts.rangeId),
    run_lengths_mm: JSON.stringify(lengths),
    shortest_run_mm: lengths.length === 0 ? null : Math.min(...lengths),
    longest_run_mm: lengths.length === 0 ? null : Math.max(...lengths),
    total_length_mm: sum(lengths),
    pieces: sum(facts.runs.flatMap(({ pieces }) => pieces ?? [])),
    facts_digest: factsDigest,
  };
};

/** A run as runs like another are found by: how many straights it has, and its whole front. */
export interface RunRow {
  /** Its place among the project's runs. */
  readonly run_number: number;
  readonly straights: number;
  readonly length_mm: number;
}

/** The rows that a project with these facts must have. */
export const runRowsOf = (facts: ProjectFacts): readonly RunRow[] =>
  facts.runs.flatMap((run, run_number) => {
    const length_mm = runLengthMm(run);
    return length_mm === null ? [] : [{ run_number, straights: run.straightsMm.length, length_mm }];
  });

export const isSameRunRows = (one: readonly RunRow[], other: readonly RunRow[]): boolean =>
  one.length === other.length &&
  one.every((row, index) => {
    const same = other[index];
    return (
      same?.run_number === row.run_number &&
      same.straights === row.straights &&
      same.length_mm === row.length_mm
    );
  });

export interface SearchRows {
  /** Keeps a project's facts, or notes that they are still to be worked out. Within the caller's transaction. */
  readonly keep: (project: SearchedProject, facts: ProjectFacts | undefined) => void;
  /** Takes a project out of every search. */
  readonly remove: (projectKey: number) => void;
  /** Leaves of a project only what no person can be known by, out of every search; `facts` are those that may stay. */
  readonly keepCounts: (project: SearchedProject, facts: ProjectFacts) => void;
  /** Writes the runs that others are compared with. */
  readonly putRunRows: (projectKey: number, facts: ProjectFacts) => void;
  /** What a project with these facts must stand in the index with. */
  readonly indexedWords: (facts: ProjectFacts) => IndexedWords;
}

/** Writes what projects are found by. Made when first used: an archive of an older version has no such tables. */
export const createSearchRows = (database: Database): SearchRows => {
  const find = database.prepare<[number], SearchRecord>('SELECT * FROM search_rows WHERE project_key = ?');
  const write: Statement = database.prepare(
    `INSERT INTO search_rows (${columns.join(', ')}) VALUES (${columns.map((column) => `:${column}`).join(', ')})
     ON CONFLICT (project_key) DO UPDATE SET ${columns.map((column) => `${column} = excluded.${column}`).join(', ')}`,
  );
  const writeFacts = database.prepare(
    `INSERT INTO search_facts (project_key, facts) VALUES (?, ?)
     ON CONFLICT (project_key) DO UPDATE SET facts = excluded.facts`,
  );
  const findIndexed = database.prepare<[number], IndexedWords>(
    'SELECT words, plan_words, marks FROM project_search WHERE rowid = ?',
  );
  const removeIndexed = database.prepare('DELETE FROM project_search WHERE rowid = ?');
  const insertIndexed = database.prepare(
    'INSERT INTO project_search (rowid, words, plan_words, marks) VALUES (?, ?, ?, ?)',
  );
  const findPlanWords = database.prepare<
    [string],
    { readonly sha256: string; readonly page: number; readonly words: string; readonly digest: Uint8Array }
  >('SELECT sha256, page, words, digest FROM plan_words WHERE sha256 = ? ORDER BY page');
  const noteStale = database.prepare('INSERT OR IGNORE INTO stale_facts (project_key) VALUES (?)');
  const noteFresh = database.prepare('DELETE FROM stale_facts WHERE project_key = ?');

  /** Not there yet where an archive of an older version is read. */
  const hasRunRows =
    database.prepare(`SELECT 1 FROM sqlite_schema WHERE name = 'run_rows'`).get() !== undefined;
  const runRowStatements = hasRunRows
    ? {
        find: database.prepare<[number], RunRow>(
          'SELECT run_number, straights, length_mm FROM run_rows WHERE project_key = ? ORDER BY run_number',
        ),
        remove: database.prepare('DELETE FROM run_rows WHERE project_key = ?'),
        insert: database.prepare('INSERT INTO run_rows VALUES (?, ?, ?, ?)'),
      }
    : null;
  /** Most changes leave every length as it is. */
  const putRunRows = (projectKey: number, rows: readonly RunRow[]): void => {
    if (!runRowStatements) return;
    if (isSameRunRows(runRowStatements.find.all(projectKey), rows)) return;
    runRowStatements.remove.run(projectKey);
    for (const { run_number, straights, length_mm } of rows)
      runRowStatements.insert.run(projectKey, run_number, straights, length_mm);
  };

  const put = (record: Omit<SearchRecord, 'digest'>): void => {
    const before = find.get(record.project_key)?.digest ?? null;
    const digest = digestOfRow('search_rows', record);
    write.run({ ...record, digest });
    changeTally(database, 'search_rows', { before, after: digest });
  };

  const planWordsOf = (sha256: string): readonly string[] =>
    findPlanWords.all(sha256).flatMap((row) => {
      if (!sameDigest(row.digest, planWordsDigest(row.sha256, row.page, row.words)))
        throw new BrokenContentError(`the words of page ${row.page} of a plan are not as they were written`);
      return row.words.split(' ');
    });

  const indexedWords = (facts: ProjectFacts): IndexedWords => ({
    words: storableText(facts.words.join(' ')),
    plan_words: storableText(
      [...new Set(facts.plans.flatMap(({ sha256 }) => planWordsOf(sha256)))].join(' '),
    ),
    marks: [
      markOf('range', facts.rangeId),
      ...facts.stations.map((item) => markOf('station', item)),
      ...facts.plans.map(({ sha256 }) => markOf('plan', sha256)),
    ].join(' '),
  });

  /** Most changes move a line and leave every word as it is; the index is then not touched. */
  const index = (projectKey: number, next: IndexedWords): void => {
    const now = findIndexed.get(projectKey);
    if (now?.words === next.words && now.plan_words === next.plan_words && now.marks === next.marks) return;
    if (now) removeIndexed.run(projectKey);
    insertIndexed.run(projectKey, next.words, next.plan_words, next.marks);
  };

  return {
    indexedWords,
    putRunRows: (projectKey, facts) => putRunRows(projectKey, runRowsOf(facts)),
    keep: (project, facts) => {
      if (!facts) {
        noteStale.run(project.project_key);
        return;
      }
      const text = storableText(JSON.stringify(facts));
      writeFacts.run(project.project_key, text);
      put(recordOf(project, facts, contentDigest(text)));
      putRunRows(project.project_key, runRowsOf(facts));
      index(project.project_key, indexedWords(facts));
      noteFresh.run(project.project_key);
    },
    keepCounts: (project, facts) => {
      const text = JSON.stringify(facts);
      writeFacts.run(project.project_key, text);
      put({ ...recordOf(project, facts, contentDigest(text)), is_removed: 1 });
      putRunRows(project.project_key, []);
      removeIndexed.run(project.project_key);
      noteFresh.run(project.project_key);
    },
    remove: (projectKey) => {
      const record = find.get(projectKey);
      if (record) put({ ...record, is_removed: 1 });
      putRunRows(projectKey, []);
      if (findIndexed.get(projectKey)) removeIndexed.run(projectKey);
      noteFresh.run(projectKey);
    },
  };
};
