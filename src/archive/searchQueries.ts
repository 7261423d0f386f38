import type { SearchOrder } from '../app/search/projectSearch.ts';
import type { SoughtRuns, StoreSearch } from '../app/search/searchPort.ts';
import { markOf } from './searchRows.ts';

/** Statements of a search and the values they are run with. */
export interface SearchQuery {
  readonly sql: string;
  readonly values: readonly (string | number)[];
}

type Facet = 'state' | 'client';

interface Condition {
  readonly sql: string;
  readonly values: readonly (string | number)[];
  readonly facet?: Facet;
}

/**
 * The words and exact values as one expression of FTS5. Words are letters and digits only, and stand in quotation marks
 * all the same, so that `AND` or `NOT` is a word like any other.
 */
const matchOf = ({ words, stations = [], planSha256, rangeId }: StoreSearch): string | null => {
  const marks = [
    ...stations.map((item) => markOf('station', item)),
    ...(planSha256 === undefined ? [] : [markOf('plan', planSha256)]),
    ...(rangeId === undefined ? [] : [markOf('range', rangeId)]),
  ];
  const parts = [
    ...words.map((word) => `{words plan_words} : "${word.replaceAll('"', '')}" *`),
    ...marks.map((mark) => `{marks} : "${mark}"`),
  ];
  return parts.length === 0 ? null : parts.join(' AND ');
};

const dayAfter = (day: string): string => new Date(Date.parse(day) + 86_400_000).toISOString().slice(0, 10);

/** The longest that a length can be; an open end of a range. */
const endless = 10_000_000;

const conditionsOf = (search: StoreSearch): readonly Condition[] => {
  const conditions: Condition[] = [];
  const add = (sql: string, values: readonly (string | number)[], facet?: Facet): void => {
    conditions.push({ sql, values, ...(facet ? { facet } : {}) });
  };
  const match = matchOf(search);
  if (match !== null)
    add('project_key IN (SELECT rowid FROM project_search WHERE project_search MATCH ?)', [match]);
  const { states, client, runFromMm, runToMm } = search;
  if (states && states.length > 0) add(`state IN (${states.map(() => '?').join(', ')})`, states, 'state');
  if (client !== undefined) add('client = ?', [client], 'client');
  if (search.tenderFrom !== undefined) add('tender_date >= ?', [search.tenderFrom]);
  if (search.tenderTo !== undefined) add(`tender_date <> '' AND tender_date <= ?`, [search.tenderTo]);
  if (search.changedFrom !== undefined) add('modified_at >= ?', [search.changedFrom]);
  if (search.changedTo !== undefined) add('modified_at < ?', [dayAfter(search.changedTo)]);
  if (search.retainedBefore !== undefined)
    add(`retain_until <> '' AND retain_until < ?`, [search.retainedBefore]);
  if (runFromMm !== undefined || runToMm !== undefined) {
    const span = [runFromMm ?? 0, runToMm ?? endless];
    // Only where the range lies between the shortest and the longest run do the others have to be looked at.
    add(
      `(longest_run_mm BETWEEN ? AND ? OR shortest_run_mm BETWEEN ? AND ?
        OR (shortest_run_mm < ? AND longest_run_mm > ?
          AND EXISTS (SELECT 1 FROM json_each(run_lengths_mm) WHERE value BETWEEN ? AND ?)))`,
      [...span, ...span, ...span, ...span],
    );
  }
  if (search.piecesFrom !== undefined) add('pieces >= ?', [search.piecesFrom]);
  if (search.piecesTo !== undefined) add('pieces <= ?', [search.piecesTo]);
  return conditions;
};

const orders: Readonly<Record<SearchOrder, string>> = {
  changed: 'change_number',
  name: 'name_key',
  number: 'number_key',
  client: 'client_key',
  state: 'state',
  'tender-date': 'tender_date',
  length: 'total_length_mm',
  pieces: 'pieces',
};

const where = (conditions: readonly Condition[]): SearchQuery => ({
  sql: ['is_removed = 0', ...conditions.map(({ sql }) => sql)].join(' AND '),
  values: conditions.flatMap(({ values }) => values),
});

/** One page of the projects found. Ties go by the last change, so that the order is whole. */
export const pageQuery = (search: StoreSearch): SearchQuery => {
  const { order = 'changed', descending = order === 'changed', offset, most } = search;
  const direction = descending ? 'DESC' : 'ASC';
  const found = where(conditionsOf(search));
  // What has no length or count comes last either way.
  const empty = order === 'length' || order === 'pieces' ? `${orders[order]} IS NULL, ` : '';
  const ties = order === 'changed' ? '' : `, change_number ${direction}`;
  return {
    sql: `SELECT * FROM search_rows WHERE ${found.sql} ORDER BY ${empty}${orders[order]} ${direction}${ties} LIMIT ? OFFSET ?`,
    values: [...found.values, most, offset],
  };
};

/** How many projects each value of a facet has, as if the facet itself were not among the wishes. */
export const facetQuery = (search: StoreSearch, facet: Facet): SearchQuery => {
  const { sql, values } = where(conditionsOf(search).filter((condition) => condition.facet !== facet));
  return {
    sql: `SELECT ${facet} AS value, count(*) AS count FROM search_rows WHERE ${sql} GROUP BY ${facet}`,
    values,
  };
};

/** One page of the runs that may be like another, the nearest in length first. */
export const runCandidatesQuery = (sought: SoughtRuns): SearchQuery => ({
  sql: `SELECT project_key, run_number FROM run_rows WHERE straights = ? AND length_mm BETWEEN ? AND ?
        ORDER BY abs(length_mm - ?), project_key, run_number LIMIT ? OFFSET ?`,
  values: [sought.straights, sought.fromMm, sought.toMm, sought.nearMm, sought.most, sought.offset],
});
