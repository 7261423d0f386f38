import type { Database } from 'better-sqlite3';
import type { ProjectFacts } from '../app/search/projectFacts.ts';
import { contentDigest, sameDigest } from './rowDigest.ts';
import { createSearchRows } from './searchRows.ts';
import { saysWordIndexBroken } from './storeErrors.ts';

/**
 * The index of words (FTS5). All that stands in it is made of what projects are found by and of the words on their
 * plans, so that a broken one is made anew and costs nothing.
 */
const indexName = 'project_search';

/** Whether a line of SQLite's check speaks of the index alone. */
export const isAboutWordIndex = (line: string): boolean => /fts5/i.test(line) && line.includes(indexName);

/** Whether the index is whole, or is not there at all; reads all of it, within the caller's transaction. */
export const isWordIndexWhole = (database: Database): boolean => {
  const isThere = database.prepare('SELECT 1 FROM sqlite_schema WHERE name = ?').get(indexName) !== undefined;
  if (!isThere) return true;
  try {
    // FTS5 keeps the list of its segments between transactions and looks whether another process changed it only when
    // it is searched, not when it is checked.
    database.prepare(`SELECT 1 FROM ${indexName} WHERE ${indexName} MATCH '"nothing"'`).get();
  } catch (error) {
    if (saysWordIndexBroken(error)) return false;
    throw error;
  }
  const lines = database.pragma(`quick_check('${indexName}')`) as readonly Record<string, string>[];
  return !lines.some((line) => isAboutWordIndex(Object.values(line)[0] ?? ''));
};

const rebuilt =
  'The index that projects are found by was broken. It was made anew from the projects themselves, which are whole; nothing of yours was touched. If it happens again, check the disk.';

/**
 * Makes the index anew within the caller's transaction: the same table, filled from the kept facts. A project whose
 * facts are not as they were written has them worked out again before the next search. Answers what to tell a person.
 */
export const rebuildWordIndex = (database: Database): string => {
  const { sql } = database
    .prepare<[string], { sql: string }>('SELECT sql FROM sqlite_schema WHERE name = ?')
    .get(indexName)!;
  database.exec(`DROP TABLE ${indexName}`);
  database.exec(sql);
  const rows = createSearchRows(database);
  const insert = database.prepare(
    `INSERT INTO ${indexName} (rowid, words, plan_words, marks) VALUES (?, ?, ?, ?)`,
  );
  const noteStale = database.prepare('INSERT OR IGNORE INTO stale_facts (project_key) VALUES (?)');
  const kept = database.prepare<[], { project_key: number; facts: string | null; facts_digest: Uint8Array }>(
    `SELECT project_key, facts, facts_digest FROM search_rows LEFT JOIN search_facts USING (project_key)
     WHERE is_removed = 0`,
  );
  for (const { project_key: key, facts, facts_digest: digest } of kept.all()) {
    if (facts === null || !sameDigest(contentDigest(facts), digest)) {
      noteStale.run(key);
      continue;
    }
    const { words, plan_words, marks } = rows.indexedWords(JSON.parse(facts) as ProjectFacts);
    insert.run(key, words, plan_words, marks);
    rows.putRunRows(key, JSON.parse(facts) as ProjectFacts);
  }
  return rebuilt;
};
