import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { migrateArchive } from '../../src/archive/migrateArchive.ts';
import { planQueries } from '../../src/archive/planStore.ts';
import { projectQueries } from '../../src/archive/projectStore.ts';
import { facetQuery, pageQuery, runCandidatesQuery } from '../../src/archive/searchQueries.ts';

const planOf = (sql: string, values: readonly unknown[] = (sql.match(/\?/g) ?? []).map(() => 1)): string => {
  const database = new Database(':memory:');
  migrateArchive(database);
  const rows = database.prepare<unknown[], { detail: string }>(`EXPLAIN QUERY PLAN ${sql}`).all(...values);
  database.close();
  return rows.map((row) => row.detail).join('; ');
};

describe('the hot queries', () => {
  it.each([
    ['list', projectQueries.list, 'SCAN projects USING INDEX projects_by_change'],
    ['find', projectQueries.find, 'SEARCH projects USING INDEX sqlite_autoindex_projects_1 (project_id=?)'],
    ['document', projectQueries.document, 'SEARCH documents USING INTEGER PRIMARY KEY (rowid=?)'],
    ['events', projectQueries.events, 'SEARCH events USING INDEX sqlite_autoindex_events_1 (project_key=?)'],
    ['last change', projectQueries.lastChange, 'SEARCH projects USING COVERING INDEX projects_by_change'],
    ['plan', planQueries.plan, 'SEARCH plans USING INDEX sqlite_autoindex_plans_1 (sha256=?)'],
    ['plan bytes', planQueries.bytes, 'SEARCH plan_bytes USING INTEGER PRIMARY KEY (rowid=?)'],
    [
      'reading',
      planQueries.reading,
      'SEARCH readings USING INDEX sqlite_autoindex_readings_1 (sha256=? AND page=? AND part=?)',
    ],
    [
      'stock range',
      planQueries.range,
      'SEARCH stock_ranges USING INDEX sqlite_autoindex_stock_ranges_1 (range_id=? AND version=?)',
    ],
  ])('"%s" goes by an index, without sorting', (_, sql, plan) => {
    expect(planOf(sql)).toBe(plan);
  });
});

describe('searches', () => {
  const page = { words: [], offset: 0, most: 50 };
  const planned = ({ sql, values }: ReturnType<typeof pageQuery>): string => planOf(sql, values);

  it.each([
    ['of everything', pageQuery(page), 'by_change'],
    ['by name', pageQuery({ ...page, order: 'name' }), 'by_name'],
    ['by tender date', pageQuery({ ...page, order: 'tender-date' }), 'by_tender'],
  ])('%s are read in their order from an index', (_, query, index) => {
    expect(planned(query)).toBe(`SEARCH search_rows USING INDEX search_rows_${index} (is_removed=?)`);
  });

  it.each(['state', 'client'] as const)('count each %s from an index alone', (facet) => {
    expect(planned(facetQuery(page, facet))).toBe(
      `SEARCH search_rows USING COVERING INDEX search_rows_by_${facet} (is_removed=?)`,
    );
  });

  it('for runs like another read those of its length alone, from an index alone', () => {
    const sought = { straights: 2, fromMm: 8000, toMm: 9000, nearMm: 8500, offset: 0, most: 50 };
    // What is found is sorted by its nearness, which no index can hold.
    expect(planned(runCandidatesQuery(sought))).toBe(
      'SEARCH run_rows USING COVERING INDEX run_rows_by_shape (straights=? AND length_mm>? AND length_mm<?); USE TEMP B-TREE FOR ORDER BY',
    );
  });

  it('for words and exact values ask the word index once', () => {
    const query = pageQuery({ ...page, words: ['quay', 'tap'], stations: ['till-point'] });
    // Walking the index of all projects in their order costs less than sorting what a common word finds.
    expect(planned(query)).toMatch(
      /^SEARCH search_rows USING INDEX search_rows_by_change \(is_removed=\?\); LIST SUBQUERY 1; SCAN project_search VIRTUAL TABLE INDEX \S+(; CREATE BLOOM FILTER)?$/,
    );
  });
});
