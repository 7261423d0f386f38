import type { StockRange } from '../stock/stockSchema.ts';
import type { ServicePoint } from './servicePoint.ts';

/** One line that runs along a straight in the services gap, as thick as it lies there. */
export interface GapLine {
  readonly what: string;
  readonly diameterMm: number;
}

/** Whether a straight's lines lie in the services gap. */
export interface GapVerdict {
  /** From 0. */
  readonly straight: number;
  readonly gapMm: number;
  /** Height behind the frames: floor to the underside of the top. */
  readonly heightMm: number;
  readonly lines: readonly GapLine[];
  /** The thickest line with another crossing it: what the gap must hold across. */
  readonly acrossMm: number;
  /** What the lines take up the height, laid beside and above one another. */
  readonly stackedMm: number;
  readonly fits: boolean;
  /** Negative: how much the gap is too narrow, or the height too small, whichever is worse. */
  readonly marginMm: number;
  /** Connections whose thickness can't be read from their size; the trade has to check them. */
  readonly unread: readonly string[];
}

/**
 * How thick lines lie. All of it common practice, no source: half-inch supplies run in 15 mm pipe with 13 mm of
 * insulation on each side, cables in 25 mm conduits, beer lines and their coolant in one insulated bundle; two lines are
 * kept 20 mm apart. The trades' own sizes win.
 */
export const gapPractice = {
  insulationMm: 13,
  conduitMm: 25,
  /** Wall of insulation round a bundle of beer lines. */
  bundleInsulationMm: 19,
  /** Part of a bundle's circle that its tubes fill. */
  bundleFill: 0.6,
  apartMm: 20,
} as const;

/** Outside diameters of the pipe that brings a thread's size, mm: copper or plastic supplies, common practice, no source. */
const pipeForThread: ReadonlyMap<string, number> = new Map([
  ['3/8', 12],
  ['1/2', 15],
  ['3/4', 22],
  ['1', 28],
  ['1 1/4', 35],
  ['1 1/2', 42],
]);

/**
 * The outside diameter of a line by its connection size, mm: `DN 40` (plastic waste pipe is sold by its outside
 * diameter up to DN 50, common practice), `15 mm tube`, `G 1/2`. Null for what says no size.
 */
export const lineDiameterMm = (connection: string): number | null => {
  const nominal = /^DN\s*(\d+(?:\.\d+)?)/i.exec(connection);
  if (nominal) return Number(nominal[1]);
  const plain = /^(\d+(?:\.\d+)?)\s*mm\b/i.exec(connection);
  if (plain) return Number(plain[1]);
  const thread = /^(?:G|R|Rp|Rc|BSP|NPT)\s*(\d+(?:\s+\d+\/\d+|\/\d+)?)/i.exec(connection);
  return thread ? (pipeForThread.get((thread[1] ?? '').replace(/\s+/g, ' ')) ?? null) : null;
};

const widest = (points: readonly ServicePoint[]): number =>
  Math.max(0, ...points.map(({ connection }) => lineDiameterMm(connection) ?? 0));

/** The circle that holds tubes at the usual fill, with insulation round it. */
const bundleMm = (points: readonly ServicePoint[]): number => {
  const tubes = points.reduce(
    (sum, { connection, count }) => sum + count * (lineDiameterMm(connection) ?? 0) ** 2,
    0,
  );
  return tubes === 0 ? 0 : Math.sqrt(tubes / gapPractice.bundleFill) + 2 * gapPractice.bundleInsulationMm;
};

/** The lines that run along a straight: one of each supply, one waste, one conduit of each kind, one beer bundle. */
export const gapLinesOf = (points: readonly ServicePoint[]): readonly GapLine[] => {
  const of = (...kinds: readonly ServicePoint['kind'][]) => points.filter(({ kind }) => kinds.includes(kind));
  const { insulationMm, conduitMm } = gapPractice;
  const supply = (kind: 'cold-water' | 'hot-water', what: string): GapLine[] => {
    const bare = widest(of(kind));
    return bare === 0 ? [] : [{ what, diameterMm: bare + 2 * insulationMm }];
  };
  const bare = (kind: 'waste' | 'gas', what: string): GapLine[] =>
    widest(of(kind)) === 0 ? [] : [{ what, diameterMm: widest(of(kind)) }];
  const conduit = (kind: 'power' | 'data', what: string): GapLine[] =>
    of(kind).length === 0 ? [] : [{ what, diameterMm: conduitMm }];
  const bundle = bundleMm(of('beer-line', 'coolant'));
  return [
    ...supply('cold-water', 'Cold water, insulated'),
    ...supply('hot-water', 'Hot water, insulated'),
    ...bare('waste', 'Waste'),
    ...bare('gas', 'Gas'),
    ...conduit('power', 'Power conduit'),
    ...conduit('data', 'Data conduit'),
    ...(bundle === 0 ? [] : [{ what: 'Beer lines and coolant in one bundle', diameterMm: bundle }]),
  ];
};

/** Rows from the floor up, thickest first; a row takes lines side by side while the gap holds them. */
const stackedHeightMm = (lines: readonly GapLine[], gapMm: number): number => {
  const { apartMm } = gapPractice;
  let stackedMm = 0;
  let leftMm = 0;
  for (const { diameterMm } of lines.toSorted((one, other) => other.diameterMm - one.diameterMm)) {
    if (diameterMm + apartMm <= leftMm) leftMm -= diameterMm + apartMm;
    else {
      stackedMm += diameterMm + apartMm;
      leftMm = gapMm - diameterMm;
    }
  }
  return stackedMm;
};

/**
 * Whether the lines of each straight lie in the services gap: across, the thickest line and the next one crossing it;
 * up, all of them in rows. Every straight is taken as if all its lines ran its whole length.
 */
export const gapVerdicts = (points: readonly ServicePoint[], range: StockRange): readonly GapVerdict[] => {
  const straights = [...new Set(points.map(({ straight }) => straight))].sort((one, other) => one - other);
  const gapMm = range.servicesGapMm;
  const heightMm = range.heights.topMm - range.heights.topThicknessMm;
  return straights.map((straight) => {
    const own = points.filter((point) => point.straight === straight);
    const lines = gapLinesOf(own);
    const [thickest = 0, next = 0] = lines
      .map(({ diameterMm }) => diameterMm)
      .sort((one, other) => other - one);
    const acrossMm = thickest + next;
    const stackedMm = stackedHeightMm(lines, gapMm);
    const marginMm = Math.min(gapMm - acrossMm, heightMm - stackedMm);
    const unread = own
      .filter(
        ({ kind, connection }) => kind !== 'power' && kind !== 'data' && lineDiameterMm(connection) === null,
      )
      .map(({ connection }) => connection);
    return {
      straight,
      gapMm,
      heightMm,
      lines,
      acrossMm,
      stackedMm,
      fits: marginMm >= 0,
      marginMm,
      unread: [...new Set(unread)],
    };
  });
};
