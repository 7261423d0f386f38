import type { FitProblem } from '../../src/fitting/problemSchema.ts';

/** One kind of a corner: what it takes off both straights, and what it counts for. */
export interface ModelCorner {
  readonly firstMm: number;
  readonly secondMm: number;
  readonly unitMm: number;
  readonly pieces: number;
  readonly madeToMeasure: number;
  readonly price: number;
}

/** The place of one side of a span: a constant, a part for each corner kind, and its give where it is exposed. */
interface ModelSide {
  readonly atMm: number;
  readonly byKind: readonly (readonly [string, number])[];
  readonly exposed: boolean;
  readonly inMm: number;
  readonly outMm: number;
}

export interface ModelSpan {
  readonly straight: number;
  readonly low: ModelSide;
  readonly high: ModelSide;
  readonly longestMm: number;
  readonly uncertaintyMm: number;
  /** Whether a piece that must be free at a side may end the span there. */
  readonly startOpen: boolean;
  readonly endOpen: boolean;
}

interface ModelStructure {
  readonly spans: readonly ModelSpan[];
  /** Sets of corner kinds that can't be chosen together. */
  readonly excluded: readonly (readonly string[])[];
  /** Sides that may not cross: low - high is at most `givenMm`. */
  readonly notCrossed: readonly {
    readonly low: ModelSide;
    readonly high: ModelSide;
    readonly givenMm: number;
  }[];
}

/** The kinds of corner `index`, read from DESIGN section 5. */
export const modelCorners = (problem: FitProblem, index: number): ModelCorner[] => {
  const { turnDeg, treatment } = problem.corners![index]!;
  const depth = problem.depthMm;
  const slope = Math.abs(Math.abs(turnDeg) - 90) < 1e-9 ? 1 : Math.tan((Math.abs(turnDeg) * Math.PI) / 360);
  const outside = turnDeg > 0;
  const shift = (problem.allowances?.claddingMm ?? 0) * slope * (outside ? 1 : -1);
  const kind = (first: number, second: number, more: Partial<ModelCorner> = {}): ModelCorner => ({
    firstMm: first + shift,
    secondMm: second + shift,
    unitMm: 0,
    pieces: 0,
    madeToMeasure: 0,
    price: 0,
    ...more,
  });
  const wedge = kind(outside ? depth * slope : 0, outside ? depth * slope : 0, {
    pieces: 1,
    madeToMeasure: 1,
  });
  if (Math.abs(Math.abs(turnDeg) - 90) > 0.5 || treatment === 'mitre') return [wedge];
  const units = (problem.cornerUnits ?? [])
    .filter((unit) => unit.sizeMm >= depth && unit.sizeMm <= (problem.maxWidthMm ?? Number.POSITIVE_INFINITY))
    .map((unit) => {
      const off = outside ? unit.sizeMm : unit.sizeMm - depth;
      return kind(off, off, { unitMm: off, pieces: 1, price: unit.price ?? 0 });
    });
  const through = outside
    ? { first: kind(0, depth), second: kind(depth, 0) }
    : { first: kind(-depth, 0), second: kind(0, -depth) };
  if (treatment === 'first-through') return [through.first];
  if (treatment === 'second-through') return [through.second];
  if (treatment === 'corner-unit') return units;
  return [through.first, through.second, ...units];
};

const fixed = (atMm: number): ModelSide => ({ atMm, byKind: [], exposed: false, inMm: 0, outMm: 0 });

/**
 * The spans of every straight. They must be the same for every choice of corners, which holds where no zone reaches
 * as far as a corner kind takes; a problem where it does not is refused by name.
 */
export const modelSpans = (problem: FitProblem, corners: readonly ModelCorner[][]): ModelStructure => {
  const { scribeMm = 0, endPanelMm = 0 } = problem.allowances ?? {};
  const spans: ModelSpan[] = [];
  const excluded: string[][] = [];
  const notCrossed: { low: ModelSide; high: ModelSide; givenMm: number }[] = [];
  for (const [
    straight,
    { lengthMm, uncertaintyMm = 0, blocked = [], openings = [], bays = [], columns = [] },
  ] of problem.straights.entries()) {
    const before = corners[straight - 1];
    const after = corners[straight];
    const end = (which: 0 | 1): ModelSide => {
      const { kind, giveMm = [0, 0] } = problem.ends[which];
      const inset = { wall: scribeMm, exposed: endPanelMm, meets: 0 }[kind];
      return {
        atMm: which === 0 ? inset : lengthMm - inset,
        byKind: [],
        exposed: kind === 'exposed',
        inMm: kind === 'exposed' ? giveMm[0] : 0,
        outMm: kind === 'exposed' ? giveMm[1] : 0,
      };
    };
    const low: ModelSide = before
      ? {
          ...fixed(0),
          byKind: before.map((one, kind) => [`t${straight - 1}_${kind}`, one.secondMm] as const),
        }
      : end(0);
    const high: ModelSide = after
      ? {
          ...fixed(lengthMm),
          byKind: after.map((one, kind) => [`t${straight}_${kind}`, -one.firstMm] as const),
        }
      : end(1);
    const reach = (values: readonly number[]) => (values.length > 0 ? values : [0]);
    const lowest = Math.min(...reach(low.byKind.map(([, value]) => value))) + low.atMm - low.outMm;
    const highest = Math.max(...reach(high.byKind.map(([, value]) => value))) + high.atMm + high.outMm;
    const lastLow = Math.max(...reach(low.byKind.map(([, value]) => value))) + low.atMm + low.inMm;
    const firstHigh = Math.min(...reach(high.byKind.map(([, value]) => value))) + high.atMm - high.inMm;
    const keptFree = bays.map(({ fromMm, toMm }) => [fromMm, toMm] as const);
    const zones = [...blocked, ...openings, ...keptFree].sort((a, b) => a[0] - b[0]);
    // The columns that are left in the problem are passed, but no corner unit stands in front of them.
    const passed = columns.map(({ fromMm, toMm }) => [fromMm, toMm] as const);
    const isOpen = (zone: readonly [number, number] | undefined) =>
      zone !== undefined &&
      ([...openings, ...keptFree] as readonly (readonly [number, number])[]).includes(zone);
    for (const zone of [...zones, ...passed]) {
      if (zone[0] <= lastLow || zone[1] >= firstHigh) throw new RangeError('zone-near-corner');
    }
    notCrossed.push({ low, high, givenMm: low.outMm + high.outMm });
    let side = low;
    let last: readonly [number, number] | undefined;
    for (const zone of [...zones, undefined]) {
      const next = zone ? fixed(zone[0]) : high;
      const from = side === low ? lowest : side.atMm;
      const to = next === high ? highest : next.atMm;
      const isNothing = side !== low && next !== high && side.atMm >= next.atMm;
      if (!isNothing)
        spans.push({
          straight,
          low: side,
          high: next,
          longestMm: Math.max(0, to - from),
          uncertaintyMm,
          startOpen: side.exposed || isOpen(last),
          endOpen: next.exposed || isOpen(zone),
        });
      last = zone;
      if (zone) side = fixed(zone[1]);
    }
  }
  return { spans, excluded, notCrossed };
};
