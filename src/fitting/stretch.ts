import type { CornerChoice } from './cornerChoices.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem, RunEnd } from './problemSchema.ts';

/** What a stretch meets at one side. */
export type StretchSide = 'wall' | 'exposed' | 'corner' | 'zone' | 'opening' | 'bay' | 'column' | 'meets';

/**
 * A length of one straight in which pieces stand without interruption. All places in integer micrometres along the
 * traced front. An exposed side may lie anywhere from `min` to `max`; any other side has `min = max`.
 */
export interface Stretch {
  readonly straight: number;
  readonly left: StretchSide;
  readonly right: StretchSide;
  readonly leftMinUm: number;
  readonly leftUm: number;
  readonly leftMaxUm: number;
  readonly rightMinUm: number;
  readonly rightUm: number;
  readonly rightMaxUm: number;
  /** Expanded uncertainty (k = 2) of the straight's length. */
  readonly uncertaintyUm: number;
  /** Columns that it passes in front of: from, to and the depth left in front, one after another; absent where none. */
  readonly columns?: readonly number[];
}

/** The same stretch as if it passed no columns. */
export const bareStretch = (stretch: Stretch): Stretch => {
  if (stretch.columns === undefined) return stretch;
  const { columns: _, ...bare } = stretch;
  return bare;
};

interface Side {
  readonly side: StretchSide;
  readonly minUm: number;
  readonly atUm: number;
  readonly maxUm: number;
}

const fixed = (side: StretchSide, atUm: number): Side => ({ side, minUm: atUm, atUm, maxUm: atUm });

/** The side that an end of the run makes. `inward` is +1 at the start of the run and -1 at its end. */
const endSide = (problem: FitProblem, end: RunEnd, tracedUm: number, inward: 1 | -1): Side => {
  if (end.kind === 'meets') return fixed('meets', tracedUm);
  if (end.kind === 'wall') {
    return fixed('wall', tracedUm + inward * micrometres(problem.allowances?.scribeMm ?? 0));
  }
  const atUm = tracedUm + inward * micrometres(problem.allowances?.endPanelMm ?? 0);
  const [inMm, outMm] = end.giveMm ?? [0, 0];
  const inner = atUm + inward * micrometres(inMm);
  const outer = atUm - inward * micrometres(outMm);
  return { side: 'exposed', minUm: Math.min(inner, outer), atUm, maxUm: Math.max(inner, outer) };
};

/** Which columns of a straight are passed, by index. */
export type PassedColumns = ReadonlySet<number>;

/** A length of a straight that no piece reaches into, in micrometres. */
interface Cut {
  readonly side: 'zone' | 'opening' | 'bay' | 'column';
  readonly fromUm: number;
  readonly toUm: number;
}

/** The blocked zones, openings and bays of a straight, and its columns that are not passed, in sequence. */
export const cutsOf = (problem: FitProblem, straight: number, passed: PassedColumns): readonly Cut[] => {
  const { blocked = [], openings = [], bays = [], columns = [] } = problem.straights[straight]!;
  const cut = (side: Cut['side'], fromMm: number, toMm: number): Cut => ({
    side,
    fromUm: micrometres(fromMm),
    toUm: micrometres(toMm),
  });
  return [
    ...blocked.map(([fromMm, toMm]) => cut('zone', fromMm, toMm)),
    ...openings.map(([fromMm, toMm]) => cut('opening', fromMm, toMm)),
    ...bays.map(({ fromMm, toMm }) => cut('bay', fromMm, toMm)),
    ...columns
      .filter((_, index) => !passed.has(index))
      .map(({ fromMm, toMm }) => cut('column', fromMm, toMm)),
  ].sort((a, b) => a.fromUm - b.fromUm || a.toUm - b.toUm);
};

const noColumns: PassedColumns = new Set();

/**
 * The stretches of a straight between its two sides, or nothing where that side pair can't be: the allowances and
 * corners take more than there is, or a stock corner unit would stand in a blocked zone or an opening.
 *
 * Readings of DESIGN section 5: a zone interrupts only its own straight; a zone that reaches to or past a side leaves
 * no stretch there; a zone of a straight does not hinder the through piece of the other straight or a wedge (which is
 * made to measure), but a stock corner unit stands on both straights and "nothing can stand" in a zone.
 */
export const stretchesOf = (
  problem: FitProblem,
  straight: number,
  before: CornerChoice | undefined,
  after: CornerChoice | undefined,
  passed: PassedColumns = noColumns,
): readonly Stretch[] | undefined => {
  const { lengthMm, uncertaintyMm = 0, columns = [] } = problem.straights[straight]!;
  const lengthUm = micrometres(lengthMm);
  const left = before ? fixed('corner', before.offSecondUm) : endSide(problem, problem.ends[0], 0, 1);
  const right = after
    ? fixed('corner', lengthUm - after.offFirstUm)
    : endSide(problem, problem.ends[1], lengthUm, -1);
  if (left.minUm > right.maxUm) return undefined;
  const cuts = cutsOf(problem, straight, passed);
  // No stock corner unit stands in front of a column, passed or not.
  for (const { fromUm, toUm } of cutsOf(problem, straight, noColumns)) {
    if (before && before.standsOnUm > 0 && fromUm < left.atUm && toUm > left.atUm - before.standsOnUm) {
      return undefined;
    }
    if (after && after.standsOnUm > 0 && toUm > right.atUm && fromUm < right.atUm + after.standsOnUm) {
      return undefined;
    }
  }
  const stretches: Stretch[] = [];
  const add = (a: Side, b: Side) => {
    // Two fixed sides that touch leave nothing between them.
    if (a.minUm === a.maxUm && b.minUm === b.maxUm && a.atUm >= b.atUm) return;
    if (a.minUm > b.maxUm) return;
    const within = columns
      .filter((_, index) => passed.has(index))
      .map((column) => [column.fromMm, column.toMm, problem.depthMm - column.depthMm].map(micrometres))
      .filter(([fromUm, toUm]) => fromUm! < b.maxUm && toUm! > a.minUm)
      .sort((one, other) => one[0]! - other[0]!);
    stretches.push({
      straight,
      left: a.side,
      right: b.side,
      leftMinUm: a.minUm,
      leftUm: a.atUm,
      leftMaxUm: a.maxUm,
      rightMinUm: b.minUm,
      rightUm: b.atUm,
      rightMaxUm: b.maxUm,
      uncertaintyUm: micrometres(uncertaintyMm),
      ...(within.length > 0 ? { columns: within.flat() } : {}),
    });
  };
  let cursor = left;
  for (const { side, fromUm, toUm } of cuts) {
    if (toUm <= cursor.minUm) continue;
    if (fromUm >= right.maxUm) break;
    add(cursor, fixed(side, fromUm));
    cursor = fixed(side, toUm);
  }
  if (cursor === left || cursor.atUm < right.maxUm) add(cursor, right);
  return stretches;
};
