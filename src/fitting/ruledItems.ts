import type { FitProblem } from './problemSchema.ts';

/** The ids of items that a rule is about, on either side of it. */
export const ruledItems = (problem: FitProblem): ReadonlySet<string> => {
  const ids = new Set<string>();
  for (const { id, beside = [], clearOf = [], hand } of problem.stock) {
    if (beside.length + clearOf.length === 0 && hand === undefined) continue;
    ids.add(id);
    for (const other of beside) ids.add(other);
    for (const { item } of clearOf) ids.add(item);
  }
  return ids;
};
