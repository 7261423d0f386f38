/** An interval of an angle, in radians. */
export interface AngleInterval {
  readonly fromRad: number;
  readonly toRad: number;
}

export interface Maximum {
  readonly atRad: number;
  readonly valueMm: number;
}

export interface MaximumSearch {
  readonly toleranceMm?: number;
  /** Values up to this one are of no interest: the search may then miss the largest of them. */
  readonly knownMm?: number;
}

/**
 * The largest value of a function over intervals, by branch and bound: an interval is dropped once its upper bound
 * cannot beat the best value found by more than `toleranceMm`, and halved otherwise. `boundMm` must never be below the
 * function anywhere in the interval, so the answer is a true value of the function and at most the tolerance short
 * of the maximum (when the step budget, generous for the kernels here, is not reached).
 */
export const maximumOver = (
  intervals: readonly AngleInterval[],
  valueMm: (atRad: number) => number,
  boundMm: (fromRad: number, toRad: number) => number,
  { toleranceMm = 1e-7, knownMm = Number.NEGATIVE_INFINITY }: MaximumSearch = {},
): Maximum => {
  let best: Maximum = { atRad: intervals[0]?.fromRad ?? 0, valueMm: Number.NEGATIVE_INFINITY };
  const consider = (atRad: number): void => {
    const value = valueMm(atRad);
    if (value > best.valueMm) best = { atRad, valueMm: value };
  };
  const open = [...intervals];
  for (const { fromRad, toRad } of intervals) {
    consider(fromRad);
    consider(toRad);
  }
  for (let step = 0; step < 200_000; step += 1) {
    const interval = open.pop();
    if (interval === undefined) return best;
    const { fromRad, toRad } = interval;
    if (boundMm(fromRad, toRad) <= Math.max(best.valueMm, knownMm) + toleranceMm || toRad - fromRad < 1e-13)
      continue;
    const middleRad = (fromRad + toRad) / 2;
    consider(middleRad);
    open.push({ fromRad, toRad: middleRad }, { fromRad: middleRad, toRad });
  }
  throw new Error(`branch and bound did not converge on ${intervals.length} intervals`);
};
