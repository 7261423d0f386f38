import { z } from 'zod';
import { serviceSchema } from '../stock/stockSchema.ts';
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
import { issueSettingsSchema, quoteTermsSchema } from './issueSettings.ts';
import { jobSchema } from './job.ts';
import { siteMeasureSchema } from './siteMeasure.ts';
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
    /** Ratios along the page's x and y, where the sheet's own dimensions tell them: they differ on a stretched one. */
    ratioX: z.number().positive().max(100_000).optional(),
    ratioY: z.number().positive().max(100_000).optional(),
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

/**
 * How a sheet follows another: as a later revision of the same drawing. The map takes paper points of the old sheet to
 * this one: x' = a x - b y + e, y' = b x + a y + f (a turn and a change of size, never a mirror image).
 */
export const sheetRevisionSchema = z
  .strictObject({
    /** The sheet that it takes the place of. Both stay in the project. */
    supersedes: sheetIdSchema,
    /** What the architect calls it: `B`. */
    revision: text(20),
    map: z.strictObject({ a: edge, b: edge, e: edge, f: edge }).readonly(),
    /** +/- (k = 2) of a point carried over, in points of 1/72 in on this sheet's paper. */
    plusMinusPt: z.number().min(0).max(10_000),
    method: z.enum(['linework', 'picks']),
    /** Whether the match was sure when it was accepted, and why, in words. */
    isSure: z.boolean(),
    because: text(500),
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
    revisionOf: sheetRevisionSchema.optional(),
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

/**
 * A point of the front line. `treatment` pins how the corner at it is made; null lets the fit choose. Where `through`
 * is given, the front goes on from here to the next point as the circular arc through it.
 */
export const vertexSchema = z
  .strictObject({
    id: vertexIdSchema,
    at: paperPointSchema,
    treatment: z.enum(cornerTreatments).nullable(),
    through: paperPointSchema.optional(),
    /** The length on site of the straight that starts here. */
    siteMeasure: siteMeasureSchema.optional(),
  })
  .readonly();

/**
 * How a run stops: against a wall; exposed, where it may move in and out by its give; or exactly at another run
 * (`meets`), with no scribe, no end panel and no give.
 */
export const runEndSchema = z
  .strictObject({
    kind: z.enum(['wall', 'exposed', 'meets']),
    giveInMm: lengthMm,
    giveOutMm: lengthMm,
    /** For `meets`: the run that it meets, where that is traced too. */
    meetsRunId: runIdSchema.optional(),
  })
  .readonly();

/**
 * Heights of a run above the datum of its sheet, in mm; what is left out is as the stock range has it. The floor under
 * the first and the last point of the front may lie above or below the datum (negative): its fall is even between them.
 */
export const runLevelsSchema = z
  .strictObject({
    topHeightMm: positiveLengthMm.max(3000).nullable(),
    shelfHeightsMm: z.array(positiveLengthMm.max(3000)).max(6).readonly(),
    floorAtStartMm: z.number().min(-2000).max(2000),
    floorAtEndMm: z.number().min(-2000).max(2000),
    /** How much higher the working floor behind the run lies; negative for a sunk one. */
    raisedFloorBehindMm: z.number().min(-2000).max(2000),
  })
  .readonly();

/** A straight whose pieces should be the mirror image of one another: about its middle, or about a wanted station. */
export const symmetrySchema = z
  .strictObject({ vertexId: vertexIdSchema, aboutStationId: stationIdSchema.nullable() })
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
    levels: runLevelsSchema.nullable().optional(),
    symmetrical: z.array(symmetrySchema).max(40).readonly().optional(),
    /** The run of the superseded sheet that this one was carried over from. */
    carriedFrom: runIdSchema.optional(),
  })
  .readonly();

/** Room that equipment in a bay needs beside its own length, in mm. */
export const bayClearanceSchema = z
  .strictObject({
    /** Ventilation on each side, and for a door that swings past the side. */
    beforeMm: lengthMm,
    afterMm: lengthMm,
    /** Height that the equipment and its ventilation need under the top. */
    heightMm: lengthMm,
    /** How far its door or drawer swings into the working aisle. */
    doorSwingMm: lengthMm,
  })
  .readonly();

/** Equipment by others that bays are commonly kept for. */
export const bayEquipmentKinds = ['glasswasher', 'bottle-cooler', 'ice-machine'] as const;

/**
 * A part of a straight that is not filled as the rest: without counter (`opening`: a flap, a pass), where nothing can
 * stand (`blocked`: a column, a riser), kept free under the top for equipment by others (`bay`), or at an accessible
 * height (`low`: a low section).
 */
export const zoneSchema = z
  .strictObject({
    id: zoneIdSchema,
    runId: runIdSchema,
    kind: z.enum(['opening', 'blocked', 'bay', 'low']),
    name: text(120),
    /** The point of the front line at which the zone's straight starts. */
    vertexId: vertexIdSchema,
    a: paperPointSchema,
    b: paperPointSchema,
    /** For `blocked`: how much of the depth it takes at the back. Null or left out: the whole depth. */
    columnDepthMm: positiveLengthMm.nullable().optional(),
    /** For `bay`. */
    clearance: bayClearanceSchema.nullable().optional(),
    /** For `bay`: what stands in it. Null or left out: something else, as its name says. */
    equipmentKind: z.enum(bayEquipmentKinds).nullable().optional(),
    /**
     * For `bay`: what comes up to its equipment. `offsetMm` runs from the equipment's left end as the bartender sees it;
     * a mirrored run keeps it, because the machine is not mirrored.
     */
    services: z.array(serviceSchema).max(12).readonly().nullable().optional(),
    /** For `low`: the height of its top above the floor. */
    topHeightMm: positiveLengthMm.max(3000).nullable().optional(),
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
    /** Which hand of the station is wanted, seen from the working side. Null or left out: whichever comes out better. */
    hand: z.enum(['left', 'right']).nullable().optional(),
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
    /** Null: as the program has them. */
    quoteTerms: quoteTermsSchema.nullable().default(null),
    issueSettings: issueSettingsSchema.nullable().default(null),
  })
  .readonly();

export type AcceptedScale = z.infer<typeof acceptedScaleSchema>;
export type SheetRevision = z.infer<typeof sheetRevisionSchema>;
export type Sheet = z.infer<typeof sheetSchema>;
export type Reference = z.infer<typeof referenceSchema>;
export type Vertex = z.infer<typeof vertexSchema>;
export type RunEnd = z.infer<typeof runEndSchema>;
export type RunLevels = z.infer<typeof runLevelsSchema>;
export type Allowances = z.infer<typeof allowancesSchema>;
export type Run = z.infer<typeof runSchema>;
export type BayEquipment = (typeof bayEquipmentKinds)[number];
export type BayClearance = z.infer<typeof bayClearanceSchema>;
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
  quoteTerms: null,
  issueSettings: null,
});

/** The references picked on a sheet, in the order of their ids. */
export const referencesOf = (document: ProjectDocument, sheetId: SheetId): readonly Reference[] =>
  Object.values(document.references)
    .filter((reference) => reference.sheetId === sheetId)
    .sort((one, other) => (one.id < other.id ? -1 : 1));
