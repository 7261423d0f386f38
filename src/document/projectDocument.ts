import { z } from 'zod';
import {
  referenceIdSchema,
  runIdSchema,
  type SheetId,
  sheetIdSchema,
  stationIdSchema,
  vertexIdSchema,
  wayInIdSchema,
  zoneIdSchema,
} from './ids.ts';
import { jobSchema } from './job.ts';
import { drawnWayInSchema, paperPointSchema, vehicleSchema } from './wayInRecords.ts';

/**
 * The project document: what the operator drew and decided, as flat records by branded id. Points are paper points
 * (unrotated PDF user space) so that nothing drawn moves when the scale changes; lengths, candidate fits and prices
 * are derived. Deeply readonly and JSON-able.
 */

/** The version that this program writes. `migrateDocument` lifts older ones. */
export const documentSchemaVersion = 1;

const text = (most: number) => z.string().max(most);
const pickUncertaintyPt = z.number().min(0).max(1000);
const lengthMm = z.number().min(0).max(1_000_000);
const positiveLengthMm = z.number().positive().max(1_000_000);

/** One edge of a box on the sheet, in user-space units. */
const edge = z.number().min(-1e6).max(1e6);

/** A scale that the operator took over from the sheet's own evidence. `ratio` is real mm per paper mm. */
export const acceptedScaleSchema = z
  .strictObject({
    ratio: z.number().positive().max(100_000),
    relativeUncertainty: z.number().min(0).max(1),
    because: text(300),
    /** Parts of the sheet with a scale of their own, in user-space units; where they overlap, the last one holds. */
    views: z
      .array(
        z
          .strictObject({
            name: text(200),
            bbox: z.tuple([edge, edge, edge, edge]).readonly(),
            ratio: z.number().positive().max(100_000),
            relativeUncertainty: z.number().min(0).max(1),
          })
          .readonly(),
      )
      .max(200)
      .readonly()
      .optional(),
  })
  .readonly();

/** One page of a plan PDF, named by the SHA-256 of the file that it came in. */
export const sheetSchema = z
  .strictObject({
    id: sheetIdSchema,
    name: text(200).min(1),
    planSha256: z.string().regex(/^[0-9a-f]{64}$/),
    planFileName: text(300),
    pageNumber: z.int().min(1).max(100_000),
    userUnit: z.number().positive().max(10_000),
    acceptedScale: acceptedScaleSchema.nullable(),
    /** Layers (ids of the PDF's optional-content groups) that the operator switched; all others are as the file has them. */
    layers: z.record(text(300), z.boolean()).readonly(),
  })
  .readonly();

/** A dimension that the operator picked on the sheet and whose length they typed. */
export const referenceSchema = z
  .strictObject({
    id: referenceIdSchema,
    sheetId: sheetIdSchema,
    a: paperPointSchema,
    b: paperPointSchema,
    lengthMm: positiveLengthMm,
    typed: text(60),
    pickUncertaintyPt,
  })
  .readonly();

export const cornerTreatments = ['first-through', 'second-through', 'corner-unit', 'mitre'] as const;
export type CornerTreatment = (typeof cornerTreatments)[number];

/** A point of the front line. `treatment` pins how the corner at it is made; null lets the fit choose. */
export const vertexSchema = z
  .strictObject({ id: vertexIdSchema, at: paperPointSchema, treatment: z.enum(cornerTreatments).nullable() })
  .readonly();

/** How a run stops: against a wall, or exposed, where it may move in and out by its give. */
export const runEndSchema = z
  .strictObject({ kind: z.enum(['wall', 'exposed']), giveInMm: lengthMm, giveOutMm: lengthMm })
  .readonly();

export const fitOrders = ['best', 'pieces', 'price', 'position'] as const;

/** Lengths that the fit gives away, in mm; see DESIGN "Straights and corners". */
export const allowancesSchema = z
  .strictObject({ jointMm: lengthMm, scribeMm: lengthMm, endPanelMm: lengthMm, claddingMm: lengthMm })
  .readonly();

/** One bar counter as traced. `backSide` is the side of the front line, walking from its first to its last point. */
export const runSchema = z
  .strictObject({
    id: runIdSchema,
    sheetId: sheetIdSchema,
    name: text(120).min(1),
    frontLine: z.array(vertexSchema).min(2).max(200).readonly(),
    backSide: z.enum(['left', 'right']),
    depthMm: z.number().min(50).max(5000),
    ends: z.tuple([runEndSchema, runEndSchema]).readonly(),
    allowances: allowancesSchema,
    fillerMaxMm: lengthMm,
    hostMarginMm: lengthMm,
    maxWidthMm: positiveLengthMm.nullable(),
    order: z.enum(fitOrders),
    pickUncertaintyPt,
  })
  .readonly();

/** A part of a straight without counter under it (an opening: flap, passage) or where nothing can stand (blocked). */
export const zoneSchema = z
  .strictObject({
    id: zoneIdSchema,
    runId: runIdSchema,
    kind: z.enum(['opening', 'blocked']),
    name: text(120),
    /** The point of the front line at which the zone's straight starts. */
    vertexId: vertexIdSchema,
    a: paperPointSchema,
    b: paperPointSchema,
  })
  .readonly();

/** A station of the stock range that the operator wants near a place. */
export const wantedStationSchema = z
  .strictObject({
    id: stationIdSchema,
    runId: runIdSchema,
    item: text(80).min(1),
    vertexId: vertexIdSchema,
    at: paperPointSchema,
    withinMm: lengthMm,
  })
  .readonly();

/** The fit that the operator kept and the problem it answers, both as JSON text in the shapes of the fitting contract. */
export const keptFitSchema = z
  .strictObject({
    runId: runIdSchema,
    problem: text(2_000_000),
    solverVersion: text(40),
    alternative: text(2_000_000),
    explanation: text(20_000),
  })
  .readonly();

export const stockRangeRefSchema = z
  .strictObject({ id: text(80).min(1), version: z.int().min(1) })
  .readonly();

export const projectDocumentSchema = z
  .strictObject({
    schemaVersion: z.literal(documentSchemaVersion),
    job: jobSchema,
    stockRange: stockRangeRefSchema,
    sheetIds: z.array(sheetIdSchema).readonly(),
    sheets: z.record(sheetIdSchema, sheetSchema).readonly(),
    references: z.record(referenceIdSchema, referenceSchema).readonly(),
    runIds: z.array(runIdSchema).readonly(),
    runs: z.record(runIdSchema, runSchema).readonly(),
    zones: z.record(zoneIdSchema, zoneSchema).readonly(),
    stations: z.record(stationIdSchema, wantedStationSchema).readonly(),
    keptFits: z.record(runIdSchema, keptFitSchema).readonly(),
    // Projects stored before ways in were described have none of these.
    wayInIds: z.array(wayInIdSchema).readonly().default([]),
    waysIn: z.record(wayInIdSchema, drawnWayInSchema).readonly().default({}),
    /** The way that the pieces are to take. */
    chosenWayInId: wayInIdSchema.nullable().default(null),
    /** Runs whose pieces are no wider than what passes the chosen way in. */
    limitedRunIds: z.array(runIdSchema).readonly().default([]),
    vehicle: vehicleSchema.nullable().default(null),
  })
  .readonly();

export type AcceptedScale = z.infer<typeof acceptedScaleSchema>;
export type Sheet = z.infer<typeof sheetSchema>;
export type Reference = z.infer<typeof referenceSchema>;
export type Vertex = z.infer<typeof vertexSchema>;
export type RunEnd = z.infer<typeof runEndSchema>;
export type Allowances = z.infer<typeof allowancesSchema>;
export type Run = z.infer<typeof runSchema>;
export type Zone = z.infer<typeof zoneSchema>;
export type WantedStation = z.infer<typeof wantedStationSchema>;
export type KeptFit = z.infer<typeof keptFitSchema>;
export type StockRangeRef = z.infer<typeof stockRangeRefSchema>;
export type ProjectDocument = z.infer<typeof projectDocumentSchema>;

/** A document with a name and nothing drawn. */
export const emptyDocument = (name: string, stockRange: StockRangeRef): ProjectDocument => ({
  schemaVersion: documentSchemaVersion,
  job: {
    name,
    number: '',
    client: '',
    site: '',
    tenderDate: '',
    state: 'enquiry',
    addenda: [],
    questions: [],
    retainUntil: '',
  },
  stockRange,
  sheetIds: [],
  sheets: {},
  references: {},
  runIds: [],
  runs: {},
  zones: {},
  stations: {},
  keptFits: {},
  wayInIds: [],
  waysIn: {},
  chosenWayInId: null,
  limitedRunIds: [],
  vehicle: null,
});

/** The references picked on a sheet, in the order of their ids. */
export const referencesOf = (document: ProjectDocument, sheetId: SheetId): readonly Reference[] =>
  Object.values(document.references)
    .filter((reference) => reference.sheetId === sheetId)
    .sort((one, other) => (one.id < other.id ? -1 : 1));
