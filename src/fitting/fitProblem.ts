import { z } from 'zod';

/**
 * What a fit may be asked for at most. Anything larger is refused by name, so that every accepted problem is solved
 * in bounded time and memory.
 */
export const problemLimits = {
  straightLengthMm: 100_000,
  runLengthMm: 200_000,
  radiusMm: 200_000,
  depthMm: 10_000,
  straights: 40,
  zonesPerStraight: 100,
  columnsPerStraight: 6,
  ruleIds: 50,
  stockLines: 1_000,
  cornerUnits: 20,
  wantedPerStraight: 24,
  wanted: 200,
  price: 10_000_000,
} as const;

/** The names of the orders that `footrail fit --order` knows; `best` is the order of DESIGN section 5. */
export const fitOrders = ['best', 'pieces', 'price', 'position'] as const;
export type FitOrder = (typeof fitOrders)[number];

const id = z.string().min(1).max(200);
const lengthUpTo = (maxMm: number) => z.number().min(0).max(maxMm);
const positiveUpTo = (maxMm: number) => z.number().min(0.001).max(maxMm);
const positionMm = z
  .number()
  .min(-2 * problemLimits.straightLengthMm)
  .max(2 * problemLimits.straightLengthMm);
const zones = z
  .array(z.tuple([positionMm, positionMm]))
  .max(problemLimits.zonesPerStraight)
  .readonly()
  .optional();

const straightSchema = z.object({
  lengthMm: positiveUpTo(problemLimits.straightLengthMm),
  /** Expanded uncertainty of the length, k = 2. */
  uncertaintyMm: lengthUpTo(problemLimits.straightLengthMm).optional(),
  /**
   * The front is an arc of this radius, `lengthMm` long along it; `outside`: the customer stands outside the circle. Each
   * piece keeps its straight front, as a chord or a tangent, and takes the sector in which it lies. All places count along
   * the arc.
   */
  arc: z
    .object({
      radiusMm: positiveUpTo(problemLimits.radiusMm),
      front: z.enum(['outside', 'inside']),
    })
    .optional(),
  /** Where nothing can stand at the full depth of the run. */
  blocked: zones,
  openings: zones,
  /**
   * Bays: lengths kept free of standing pieces under a continuous top, for equipment by others (a glasswasher, a bottle
   * cooler). From and to are the whole length to keep free, with the room for ventilation and for a door to swing.
   * For the layout a bay is as an opening: no piece reaches into it, a corner unit does not stand in it, and a leftover
   * may lie beside it. It counts for nothing in the score; unlike an opening the top runs on over it, and the
   * explanation names it. With `isLow` it is a low section: the top over it lies lower, and carries no shelf.
   */
  bays: z
    .array(
      z.object({ id: id.optional(), fromMm: positionMm, toMm: positionMm, isLow: z.boolean().optional() }),
    )
    .max(problemLimits.zonesPerStraight)
    .readonly()
    .optional(),
  /**
   * Columns that take only the back: from and to along the front, and how much of the depth they take. A column is
   * either passed or not, whichever gives the better fit. Where it is passed, each piece that takes length and reaches
   * in front of it must be no deeper than the run less the column; joints and leftovers lie as if it were not there.
   * Where it is not passed it is as a blocked zone. A corner unit stands in front of none.
   */
  columns: z
    .array(z.object({ fromMm: positionMm, toMm: positionMm, depthMm: positiveUpTo(problemLimits.depthMm) }))
    .max(problemLimits.columnsPerStraight)
    .readonly()
    .optional(),
});

const cornerSchema = z.object({
  /** Above 0 the front is on the outside of the corner. 0 only where an arc goes on without a turn: a plain joint. */
  turnDeg: z.number().gt(-180).lt(180),
  treatment: z.enum(['first-through', 'second-through', 'corner-unit', 'mitre']).optional(),
});

const endSchema = z.object({
  /**
   * `meets`: the run ends against another run, exactly at the traced point: no scribe and no end panel is taken off, it
   * has no give, and a leftover may lie there as beside a corner.
   */
  kind: z.enum(['wall', 'exposed', 'meets']),
  /** How far an exposed end may move in and out. */
  giveMm: z
    .tuple([lengthUpTo(problemLimits.straightLengthMm), lengthUpTo(problemLimits.straightLengthMm)])
    .readonly()
    .optional(),
});

const handSchema = z.enum(['left', 'right']);

const stockSchema = z.object({
  id,
  widthMm: positiveUpTo(problemLimits.straightLengthMm),
  support: z.enum(['standing', 'carried', 'drop-in', 'countertop']),
  fill: z.boolean().optional(),
  price: z.number().min(0).max(problemLimits.price).optional(),
  massKg: z.number().min(0).max(1_000_000).optional(),
  /** Left out: made to the run's depth. A piece deeper than the run stands nowhere on it. */
  depthMm: positiveUpTo(problemLimits.depthMm * 2).optional(),
  /**
   * Ids of items of which at least one must stand next to this piece: one joint away with nothing between. A piece in
   * or on another stands where its host does: it is next to its host, to what else the host carries, and to the host's
   * neighbours with what they carry. An id that is not in the stock stands nowhere.
   */
  beside: z.array(id).min(1).max(problemLimits.ruleIds).readonly().optional(),
  /**
   * Items from which this piece keeps at least a distance, edge to edge along the front of its straight, across zones,
   * openings and bays too. It holds both ways round. Pieces round a corner are not measured. An id that is not in the
   * stock is nowhere near.
   */
  clearOf: z
    .array(z.object({ item: id, distanceMm: lengthUpTo(problemLimits.straightLengthMm) }))
    .max(problemLimits.ruleIds)
    .readonly()
    .optional(),
  /**
   * The side at which the piece must be free, seen from the working side: where its door swings open, its drainer runs
   * off, or one reaches in. There it stands next to another piece (one joint away), an exposed end, an opening or a bay;
   * never last before a wall, a corner, a blocked zone, a column or a run that it meets, with or without a leftover
   * between. Its other side is not bound. It does not bind pieces in or on others. Which end of the run is at which hand
   * says the problem's `startHand`.
   */
  hand: handSchema.optional(),
  /**
   * The name of a pair: items of one `handOf` are the hands of one thing. A wanted station may name the pair instead of
   * an item, and takes whichever of them gives the better fit. No item of the stock has a pair's name as its id.
   */
  handOf: id.optional(),
});

const cornerUnitSchema = z.object({
  id,
  sizeMm: positiveUpTo(problemLimits.depthMm * 2),
  price: z.number().min(0).max(problemLimits.price).optional(),
});

const wantedSchema = z.object({
  id,
  /** The id of a stock item, or the `handOf` that several share. */
  item: id,
  /** Of a pair, only the items of this hand. */
  hand: handSchema.optional(),
  /** Counts from 0. */
  straight: z.number().int().min(0),
  nearMm: positionMm,
  withinMm: lengthUpTo(2 * problemLimits.straightLengthMm),
});

/** The problem of `footrail fit`, DESIGN section 6, as a zod schema: shapes and ranges, without the cross checks. */
export const fitProblemSchema = z.object({
  depthMm: positiveUpTo(problemLimits.depthMm),
  straights: z.array(straightSchema).min(1).max(problemLimits.straights).readonly(),
  corners: z.array(cornerSchema).max(problemLimits.straights).readonly().optional(),
  ends: z.tuple([endSchema, endSchema]).readonly(),
  stock: z.array(stockSchema).max(problemLimits.stockLines).readonly(),
  /** On which hand the run's traced start is, seen from the working side; `left` where left out. For handed items. */
  startHand: handSchema.optional(),
  cornerUnits: z.array(cornerUnitSchema).max(problemLimits.cornerUnits).readonly().optional(),
  wanted: z.array(wantedSchema).max(problemLimits.wanted).readonly().optional(),
  allowances: z
    .object({
      jointMm: lengthUpTo(1_000).optional(),
      scribeMm: lengthUpTo(10_000).optional(),
      endPanelMm: lengthUpTo(10_000).optional(),
      claddingMm: lengthUpTo(10_000).optional(),
    })
    .optional(),
  fillerMaxMm: lengthUpTo(problemLimits.straightLengthMm),
  hostMarginMm: lengthUpTo(10_000).optional(),
  maxWidthMm: positiveUpTo(problemLimits.straightLengthMm).optional(),
  /** How far a curved top may overhang a piece's straight front at most, on an arc. Left out: no bound. */
  overhangMaxMm: lengthUpTo(problemLimits.straightLengthMm).optional(),
  /**
   * Asks, where a leftover is made to measure, for the alternative of a module beside it made wider, with what each
   * costs: a made-to-measure piece `price` and `pricePerMm` of its width, a module made wider by up to `wideningMaxMm`
   * its own price and `wideningPrice`.
   */
  madeToMeasure: z
    .object({
      price: z.number().min(0).max(problemLimits.price),
      pricePerMm: z.number().min(0).max(problemLimits.price),
      wideningMaxMm: lengthUpTo(problemLimits.straightLengthMm),
      wideningPrice: z.number().min(0).max(problemLimits.price),
    })
    .optional(),
  /**
   * Asks for alternatives in which a straight's pieces are the mirror image of one another: about the middle of the
   * straight between its two sides, or about the wanted station `about`.
   */
  symmetrical: z
    .array(z.object({ straight: z.number().int().min(0), about: id.optional() }))
    .max(problemLimits.straights)
    .readonly()
    .optional(),
});

/** A fitting problem whose shape and ranges have been checked. Lengths in mm, turns in degrees. */
export type FitProblem = Readonly<z.infer<typeof fitProblemSchema>>;
export type StockItem = FitProblem['stock'][number];
export type WantedStation = NonNullable<FitProblem['wanted']>[number];
export type RunEnd = FitProblem['ends'][number];
export type CornerTreatment = NonNullable<NonNullable<FitProblem['corners']>[number]['treatment']>;
