import type { Run } from '../../document/projectDocument.ts';
import { isFirstPointOnCustomersLeft } from '../../measure/unrolled.ts';
import type { StraightSpans } from './spansOf.ts';

/** A length of the developed elevation, mm from its left end. */
export interface Stretched {
  readonly left: number;
  readonly right: number;
}

/** Where everything of a run stands in its developed elevation, seen from the working side. */
export interface DevelopedRun {
  readonly totalMm: number;
  /** Whether the run's first point is at the right: the traced direction then runs from right to left. */
  readonly isFirstPointAtRight: boolean;
  readonly xOf: (straight: number, alongMm: number) => number;
  readonly stretch: (span: {
    readonly straight: number;
    readonly fromMm: number;
    readonly toMm: number;
  }) => Stretched;
  /** Where straight `corner` and the next meet. */
  readonly foldAt: (corner: number) => number;
}

/**
 * Unrolls a run. Straights stand one beside the other, each with what reaches beyond its traced length (a through piece
 * in an inside corner, an exposed end that moved out), so that nothing overlaps.
 *
 * Seen from the working side: what a customer has on the left, the bartender has on the right.
 */
export const developedRun = (
  run: Pick<Run, 'backSide'>,
  straights: readonly StraightSpans[],
): DevelopedRun => {
  const starts: number[] = [];
  let walkedMm = 0;
  for (const { lowMm, highMm } of straights) {
    starts.push(walkedMm);
    walkedMm += highMm - lowMm;
  }
  const totalMm = walkedMm;
  const isFirstPointAtRight = isFirstPointOnCustomersLeft(run);
  const turned = (walked: number): number => (isFirstPointAtRight ? totalMm - walked : walked);
  const xOf = (straight: number, alongMm: number): number => {
    const at = straights[straight];
    const start = starts[straight];
    if (at === undefined || start === undefined)
      throw new RangeError(`No straight ${straight}: the run has ${straights.length}`);
    return turned(start + alongMm - at.lowMm);
  };
  return {
    totalMm,
    isFirstPointAtRight,
    xOf,
    stretch: ({ straight, fromMm, toMm }) => {
      const one = xOf(straight, fromMm);
      const other = xOf(straight, toMm);
      return { left: Math.min(one, other), right: Math.max(one, other) };
    },
    foldAt: (corner) => turned(starts[corner + 1] ?? totalMm),
  };
};
