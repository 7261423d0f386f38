import type { Voter } from './voter.ts';

/** So many different numbers that would state one and the same gap stand in a table's column. */
const LEAST_COLUMN = 4;

/** Ends closer than this are one, in user-space units of paper points. */
const SAME_END = 0.5;

/**
 * Leaves out the numbers of schedules and tables. What gives them away: many different numbers one above the other stand
 * in the middle of one and the same gap, that between their column's rules. A drawing's dimensions of one gap say one
 * length, apart from a few false ones.
 */
export const withoutTables = (voters: readonly Voter[], userUnit: number): readonly Voter[] => {
  const columns = new Map<string, Voter[]>();
  for (const voter of voters) {
    const key = gapOf(voter, userUnit);
    if (key !== undefined) columns.set(key, [...(columns.get(key) ?? []), voter]);
  }
  const tabulated = new Set<Voter>();
  for (const column of columns.values()) {
    const values = new Set(column.map(({ value }) => value)).size;
    if (values >= LEAST_COLUMN && values > column.length / 3)
      for (const voter of column) tabulated.add(voter);
  }
  return tabulated.size === 0 ? voters : voters.filter((voter) => !tabulated.has(voter));
};

/** Where the likeliest span begins and ends along its direction, if that is one of the page's axes. */
const gapOf = ({ spans }: Voter, userUnit: number): string | undefined => {
  const [best] = spans;
  if (!best) return undefined;
  const axis = Math.abs(best.a.y - best.b.y) < 1e-3 * best.length ? 'x' : 'y';
  if (axis === 'y' && Math.abs(best.a.x - best.b.x) >= 1e-3 * best.length) return undefined;
  const end = (at: number): number => Math.round((at * userUnit) / SAME_END);
  return `${axis}${end(Math.min(best.a[axis], best.b[axis]))}:${end(Math.max(best.a[axis], best.b[axis]))}`;
};
