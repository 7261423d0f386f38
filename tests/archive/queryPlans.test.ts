import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { migrateArchive } from '../../src/archive/migrateArchive.ts';
import { planQueries } from '../../src/archive/planStore.ts';
import { projectQueries } from '../../src/archive/projectStore.ts';

const planOf = (sql: string): string => {
  const database = new Database(':memory:');
  migrateArchive(database);
  const values = (sql.match(/\?/g) ?? []).map(() => 1);
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
