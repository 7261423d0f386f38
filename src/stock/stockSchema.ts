import { z } from 'zod';

/**
 * The stock range as data: what can be had, how wide, how it is held up, what it costs and what it needs.
 *
 * Lengths are millimetres in the room, masses kilograms, prices whole currency units with at most two decimals,
 * heights above finished floor. Widths are exact to one micrometre, because the solver counts in micrometres.
 * Positions within an item (`fromMm`, `toMm`, `offsetMm`) run from its left end as the bartender sees it, standing at
 * the working side.
 */

const micrometres = (value: number): boolean => Math.abs(value * 1000 - Math.round(value * 1000)) < 1e-6;
const cents = (value: number): boolean => Math.abs(value * 100 - Math.round(value * 100)) < 1e-6;

/** A length above zero and at most 10 m, exact to a micrometre. */
const sizeMm = z.number().positive().max(10_000).refine(micrometres, 'finer than a micrometre');
/** A length of zero or more, exact to a micrometre. */
const distanceMm = z.number().min(0).max(10_000).refine(micrometres, 'finer than a micrometre');
/** A price in the range's currency: zero or more, at most two decimals. */
const price = z.number().min(0).max(1_000_000).refine(cents, 'more than two decimals');
const massKg = z.number().positive().max(2_000);
const days = z.number().int().min(0).max(730);
const id = z
  .string()
  .regex(
    /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/,
    'an id is letters, digits, dots, dashes and underscores, at most 64',
  );
/** A spreadsheet runs a cell that starts with one of these as a formula, so no name may. */
const name = z
  .string()
  .min(1)
  .max(120)
  .regex(
    /^[^=+\-@|\t\r\n\s][^|\t\r\n]*(?<!\s)$/,
    'a name is one line without bars and does not start with = + - @',
  );

/** What comes up to an item from the building. */
export const serviceKinds = [
  'cold-water',
  'hot-water',
  'waste',
  'power',
  'data',
  'beer-line',
  'gas',
  'coolant',
] as const;
export type ServiceKind = (typeof serviceKinds)[number];

/** What the developed elevation shows on an item. */
export const elevationFeatures = [
  'tap',
  'beer-taps',
  'basin',
  'sink',
  'drip-tray',
  'glass-rinser',
  'ice-well',
  'speed-rail',
  'pan-cut-outs',
  'basket-rack',
  'shelf',
  'blender-shelf',
  'drawer',
  'door',
  'waste-chute',
  'till',
] as const;
export type ElevationFeature = (typeof elevationFeatures)[number];

export const supports = ['standing', 'carried', 'drop-in', 'countertop'] as const;
export type Support = (typeof supports)[number];

/** What comes up, where, in which size: of a piece, or of equipment by others in a bay. */
export const serviceSchema = z
  .strictObject({
    kind: z.enum(serviceKinds),
    offsetMm: distanceMm,
    /** Above finished floor. */
    heightMm: distanceMm,
    /** Connection size as the trade writes it, such as `G 1/2` or `DN 50`. */
    connection: z
      .string()
      .min(1)
      .max(40)
      .regex(/^[^=+\-@:|\r\n\s][^:|\r\n]*(?<!\s)$/, 'one line without colons and bars'),
    /** How many of these come up here. */
    count: z.number().int().min(1).max(48).optional(),
    /** Electrical load, for `power`. */
    loadKw: z.number().positive().max(200).optional(),
  })
  .readonly();
export type StockService = z.infer<typeof serviceSchema>;

const featureSchema = z
  .strictObject({
    feature: z.enum(elevationFeatures),
    fromMm: distanceMm,
    toMm: distanceMm,
    count: z.number().int().min(1).max(48).optional(),
  })
  .refine((feature) => feature.toMm > feature.fromMm, { message: 'ends before it starts', path: ['toMm'] })
  .readonly();
export type StockFeature = z.infer<typeof featureSchema>;

/** Outer size of the packed piece, as it must pass the way in. */
const packedSchema = z
  .strictObject({
    lengthMm: sizeMm,
    widthMm: sizeMm,
    heightMm: sizeMm,
    keepUpright: z.boolean().optional(),
  })
  .readonly();
export type PackedSize = z.infer<typeof packedSchema>;

export const stockItemSchema = z
  .strictObject({
    id,
    name,
    /** A module gives working top and storage; a station does a job. */
    kind: z.enum(['module', 'station']),
    widthMm: sizeMm,
    /** Left out: made to the run's depth. */
    depthMm: sizeMm.optional(),
    heightMm: sizeMm.optional(),
    support: z.enum(supports),
    /** May the solver use it to fill a straight? Left out: yes for `standing`, no for the rest. */
    fill: z.boolean().optional(),
    /**
     * Which way round it stands, seen from the working side: at this side its door swings or its drainer runs off, so
     * that it never ends there against something fixed. Left out: it does not matter.
     */
    hand: z.enum(['left', 'right']).optional(),
    /** What both hands of one thing are called together: a station may be wanted by this name, in whichever hand fits. */
    handOf: id.optional(),
    price: price.optional(),
    massKg: massKg.optional(),
    packed: packedSchema.optional(),
    leadTimeDays: days.optional(),
    /** Frames that it stands on. Left out: the range's frame rule for its width; none unless `standing`. */
    frames: z.number().int().min(0).max(20).optional(),
    /** Ids of items that it must stand next to. */
    beside: z.array(id).readonly().optional(),
    /** Ids of items that it keeps at least a distance from, edge to edge. */
    clearOf: z
      .array(z.strictObject({ item: id, distanceMm: sizeMm }).readonly())
      .readonly()
      .optional(),
    /** What comes with it: wastes, connectors. */
    includes: z
      .array(z.strictObject({ name, count: z.number().int().min(1).max(99) }).readonly())
      .readonly()
      .optional(),
    services: z.array(serviceSchema).readonly().optional(),
    elevation: z.array(featureSchema).readonly().optional(),
  })
  .superRefine((item, context) => {
    if (!(item.widthMm > 0)) return;
    for (const [at, feature] of (item.elevation ?? []).entries()) {
      if (feature.toMm > item.widthMm)
        context.addIssue({
          code: 'custom',
          message: `${feature.feature} ends at ${feature.toMm} mm, outside the ${item.widthMm} mm wide item`,
          path: ['elevation', at, 'toMm'],
        });
    }
    for (const [at, service] of (item.services ?? []).entries()) {
      if (service.offsetMm > item.widthMm)
        context.addIssue({
          code: 'custom',
          message: `${service.kind} comes up at ${service.offsetMm} mm, outside the ${item.widthMm} mm wide item`,
          path: ['services', at, 'offsetMm'],
        });
    }
  })
  .readonly();
export type StockItem = z.infer<typeof stockItemSchema>;

export const cornerUnitSchema = z
  .strictObject({
    id,
    name,
    /** Taken off both straights; at least the run's depth to be usable there. */
    sizeMm,
    price: price.optional(),
    massKg: massKg.optional(),
    packed: packedSchema.optional(),
    leadTimeDays: days.optional(),
    frames: z.number().int().min(0).max(20).optional(),
  })
  .readonly();
export type CornerUnit = z.infer<typeof cornerUnitSchema>;

const rangeShape = z.strictObject({
  id,
  name,
  /** Counts up; a project keeps the version that it was fitted with. */
  version: z.number().int().min(1),
  currency: z.string().regex(/^[A-Z]{3}$/, 'an ISO 4217 code such as EUR'),
  /** True for a range that nobody sells. */
  invented: z.boolean(),
  note: z.string().max(1_000),
  items: z.array(stockItemSchema).max(10_000).readonly(),
  cornerUnits: z.array(cornerUnitSchema).max(1_000).readonly(),
  fillers: z
    .strictObject({
      maxMm: distanceMm,
      price: price.optional(),
      pricePerMm: z.number().min(0).max(10_000).optional(),
      leadTimeDays: days.optional(),
    })
    .readonly(),
  madeToMeasure: z
    .strictObject({
      minMm: sizeMm,
      maxMm: sizeMm,
      /** Ordered in whole steps of this. */
      stepMm: sizeMm,
      price,
      pricePerMm: z.number().min(0).max(10_000),
      leadTimeDays: days,
      /** A stock module may instead be ordered wider by up to this, for its price plus `wideningPrice`. */
      wideningMaxMm: distanceMm,
      wideningPrice: price,
      /** How far a curved top may overhang a module's straight front. */
      overhangMaxMm: distanceMm.optional(),
    })
    .refine((rule) => rule.maxMm >= rule.minMm, { message: 'less than minMm', path: ['maxMm'] })
    .readonly(),
  heights: z
    .strictObject({
      /** Working top. */
      topMm: sizeMm,
      topThicknessMm: sizeMm,
      /** Upstand at the customer side, above the top. */
      upstandMm: distanceMm,
      /** Upper face of the serving shelf. */
      shelfMm: distanceMm,
      shelfDepthMm: distanceMm,
      shelfThicknessMm: distanceMm,
      /** Adjustable feet, and how far each way they turn. */
      feetMm: distanceMm,
      feetAdjustMm: distanceMm,
      /** A low section's top. */
      lowSectionTopMm: sizeMm,
    })
    .readonly(),
  frame: z
    .strictObject({
      tubeMm: sizeMm,
      legsPerFrame: z.number().int().min(1).max(8),
      /** Ascending: a piece up to this wide stands on this many frames. */
      countByWidth: z
        .array(z.strictObject({ upToMm: sizeMm, frames: z.number().int().min(1).max(20) }).readonly())
        .min(1)
        .readonly(),
    })
    .readonly(),
  /** Defaults for a new run; the run may set its own. */
  allowances: z
    .strictObject({
      jointMm: distanceMm,
      scribeMm: distanceMm,
      endPanelMm: distanceMm,
      claddingMm: distanceMm,
    })
    .readonly(),
  /** Clear space behind the frames for pipes, conduits and beer lines. */
  servicesGapMm: distanceMm,
  hostMarginMm: distanceMm,
  extras: z
    .strictObject({
      endPanel: z.strictObject({ price, massKg: massKg.optional() }).readonly(),
      joint: z.strictObject({ price }).readonly(),
      spacerBar: z.strictObject({ price }).readonly(),
      shelfBracket: z.strictObject({ price, thicknessMm: sizeMm, spacingMm: sizeMm }).readonly(),
      shelfPricePerMm: z.number().min(0).max(10_000),
      /** A top that runs on over a bay, on its neighbours. */
      bayTopPricePerMm: z.number().min(0).max(10_000).optional(),
      upstandPricePerMm: z.number().min(0).max(10_000),
    })
    .readonly(),
});

/** A whole stock range. Ids are unique over items and corner units, and every id that an item names exists. */
export const stockRangeSchema = rangeShape
  .superRefine((range, context) => {
    const seen = new Map<string, string>();
    const known = new Set([...range.items, ...range.cornerUnits].map((entry) => entry.id));
    const check = (entryId: string, path: (string | number)[]): void => {
      const earlier = seen.get(entryId);
      if (earlier === undefined) seen.set(entryId, path.join('.'));
      else
        context.addIssue({ code: 'custom', message: `id "${entryId}" is already used at ${earlier}`, path });
    };
    for (const [index, item] of range.items.entries()) {
      check(item.id, ['items', index, 'id']);
      const checkNamed = (other: string, field: 'beside' | 'clearOf'): void => {
        if (!known.has(other))
          context.addIssue({
            code: 'custom',
            message: `no item "${other}" in this range`,
            path: ['items', index, field],
          });
      };
      if (item.handOf !== undefined && known.has(item.handOf)) {
        const message = `"${item.handOf}" is the id of a piece; both hands together need a name of their own`;
        context.addIssue({ code: 'custom', message, path: ['items', index, 'handOf'] });
      }
      if (item.handOf !== undefined && item.hand === undefined) {
        context.addIssue({ code: 'custom', message: 'needs a hand', path: ['items', index, 'handOf'] });
      }
      for (const other of item.beside ?? []) checkNamed(other, 'beside');
      for (const rule of item.clearOf ?? []) checkNamed(rule.item, 'clearOf');
    }
    for (const [index, unit] of range.cornerUnits.entries()) check(unit.id, ['cornerUnits', index, 'id']);
    const widths = range.frame.countByWidth.map((rule) => rule.upToMm);
    if (widths.some((width, index) => index > 0 && width <= widths[index - 1]!))
      context.addIssue({ code: 'custom', message: 'upToMm must ascend', path: ['frame', 'countByWidth'] });
  })
  .readonly();
export type StockRange = z.infer<typeof stockRangeSchema>;
