import type { FitProblem } from './problemSchema.ts';

/** The version of the solver's rules. It rises whenever the same problem could get another answer. */
export const solverVersion = '1';

const canonicalValue = (value: unknown): string => {
  if (Array.isArray(value)) return `[${value.map(canonicalValue).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const fields = Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, field]) => `${JSON.stringify(name)}:${canonicalValue(field)}`);
    return `{${fields.join(',')}}`;
  }
  if (value === undefined) throw new Error('A problem holds no undefined outside optional fields.');
  return JSON.stringify(value === 0 ? 0 : value);
};

const byId = <Entry extends { readonly id: string }>(list: readonly Entry[]): readonly Entry[] =>
  [...list].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));

/**
 * A problem as one stable string: fields by name, and the lists whose sequence means nothing (stock, corner units,
 * wanted stations) by id. Problems that differ only so give the same string; hash it where a short key is needed.
 */
export const canonicalProblem = (problem: FitProblem): string =>
  canonicalValue({
    ...problem,
    stock: byId(problem.stock),
    ...(problem.cornerUnits ? { cornerUnits: byId(problem.cornerUnits) } : {}),
    ...(problem.wanted ? { wanted: byId(problem.wanted) } : {}),
  });
