import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';

/** A problem's key as `poseProblem` makes it: the order's name, then the problem. Null where it reads otherwise. */
const parsedKey = (key: string): { readonly order: string; readonly problem: FitProblem } | null => {
  const space = key.indexOf(' ');
  if (space < 0) return null;
  try {
    return { order: key.slice(0, space), problem: JSON.parse(key.slice(space + 1)) as FitProblem };
  } catch {
    // A key of another version of the program: what changed since can't be told.
    return null;
  }
};

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Lengths that differ by less come of rounding, not of a change that someone made. */
const leastShownMm = 0.5;

const lengthWords = (before: FitProblem, now: FitProblem, unit: DisplayUnit): readonly string[] => {
  if (before.straights.length !== now.straights.length) {
    const count = now.straights.length;
    return [`the run has ${count} ${count === 1 ? 'straight' : 'straights'}, not ${before.straights.length}`];
  }
  return now.straights.flatMap(({ lengthMm }, index) => {
    const byMm = lengthMm - (before.straights[index]?.lengthMm ?? 0);
    if (Math.abs(byMm) < leastShownMm) return [];
    const by = formatLength(Math.abs(byMm), { unit });
    return [`straight ${index + 1} is ${by} ${byMm > 0 ? 'longer' : 'shorter'}`];
  });
};

const wishWords = (before: FitProblem, now: FitProblem): readonly string[] => {
  const old = new Map((before.wanted ?? []).map((wish) => [wish.id, wish]));
  const wished = now.wanted ?? [];
  const added = wished.filter(({ id }) => !old.has(id)).length;
  const removed = [...old.keys()].filter((id) => !wished.some((wish) => wish.id === id)).length;
  const moved = wished.filter((wish) => old.has(wish.id) && !same(old.get(wish.id), wish)).length;
  const counted = (count: number, what: string) => (count === 0 ? [] : [`${count} ${what}`]);
  return [
    ...counted(added, 'more wanted or held in place'),
    ...counted(removed, 'fewer wanted or held in place'),
    ...counted(moved, 'wanted elsewhere or otherwise'),
  ];
};

/** What has changed in a run since a fit was kept, in words; empty where the two keys pose the same. */
export const problemChanges = (keptKey: string, nowKey: string, unit: DisplayUnit): readonly string[] => {
  const before = parsedKey(keptKey);
  const now = parsedKey(nowKey);
  if (!before || !now || keptKey === nowKey) return [];
  const one = before.problem;
  const other = now.problem;
  const zones = (problem: FitProblem) =>
    problem.straights.map(({ blocked = [], openings = [], bays = [], columns = [] }) => [
      blocked,
      openings,
      bays.map(({ fromMm, toMm }) => [fromMm, toMm]),
      columns,
    ]);
  const turns = (problem: FitProblem) => (problem.corners ?? []).map(({ treatment }) => treatment ?? null);
  const words = [
    ...lengthWords(one, other, unit),
    ...(one.depthMm === other.depthMm ? [] : ['the depth']),
    ...(same(zones(one), zones(other)) ? [] : ['openings, bays, low sections or columns']),
    ...(same(turns(one), turns(other)) ? [] : ['how a corner is made']),
    ...(same(one.ends, other.ends) ? [] : ['an end']),
    ...wishWords(one, other),
    ...(same(one.stock, other.stock) && same(one.cornerUnits, other.cornerUnits) ? [] : ['the stock range']),
    ...(same(one.symmetrical, other.symmetrical) ? [] : ['what is to be symmetrical']),
    ...(same(one.madeToMeasure, other.madeToMeasure) ? [] : ['what made to measure costs']),
    ...(same(one.allowances, other.allowances) && one.hostMarginMm === other.hostMarginMm
      ? []
      : ['the allowances']),
    ...(one.fillerMaxMm === other.fillerMaxMm && one.maxWidthMm === other.maxWidthMm ? [] : ['a limit']),
    ...(before.order === now.order ? [] : ['the order']),
  ];
  return words.length > 0 ? words : ['lengths, by less than half a millimetre'];
};
