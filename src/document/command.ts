import { z } from 'zod';
import {
  obstacleIdSchema,
  referenceIdSchema,
  runIdSchema,
  sheetIdSchema,
  stationIdSchema,
  vertexIdSchema,
  wayInIdSchema,
  zoneIdSchema,
} from './ids.ts';
import { issueSettingsSchema, quoteTermsSchema } from './issueSettings.ts';
import { jobChangesSchema } from './job.ts';
import {
  acceptedScaleSchema,
  cornerTreatments,
  keptFitSchema,
  referenceSchema,
  runSchema,
  sheetSchema,
  stockRangeRefSchema,
  vertexSchema,
  wantedStationSchema,
  zoneSchema,
} from './projectDocument.ts';
import { siteMeasureSchema } from './siteMeasure.ts';
import {
  coordinate,
  drawnObstacleSchema,
  drawnWayInSchema,
  paperPointSchema,
  vehicleSchema,
} from './wayInRecords.ts';

/**
 * Commands: every edit of a project as plain JSON. `applyCommand` turns one into a patch or a refusal.
 *
 * @example { type: 'move-vertex', runId: 'run-1a', vertexId: 'vertex-2b', to: { x: 120.5, y: 480 } }
 */
const simpleCommandSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('change-job'), changes: jobChangesSchema }),
  z.strictObject({ type: z.literal('choose-stock-range'), stockRange: stockRangeRefSchema }),

  z.strictObject({ type: z.literal('add-sheet'), sheet: sheetSchema }),
  z.strictObject({
    type: z.literal('change-sheet'),
    sheetId: sheetIdSchema,
    changes: sheetSchema.unwrap().pick({ name: true, layers: true }).partial(),
  }),
  z.strictObject({ type: z.literal('remove-sheet'), sheetId: sheetIdSchema }),
  z.strictObject({
    type: z.literal('accept-scale'),
    sheetId: sheetIdSchema,
    scale: acceptedScaleSchema.nullable(),
  }),

  z.strictObject({ type: z.literal('add-reference'), reference: referenceSchema }),
  z.strictObject({
    type: z.literal('change-reference'),
    referenceId: referenceIdSchema,
    changes: referenceSchema.unwrap().omit({ id: true, sheetId: true }).partial(),
  }),
  z.strictObject({ type: z.literal('remove-reference'), referenceId: referenceIdSchema }),

  z.strictObject({ type: z.literal('add-run'), run: runSchema }),
  z.strictObject({
    type: z.literal('change-run'),
    runId: runIdSchema,
    changes: runSchema.unwrap().omit({ id: true, sheetId: true, frontLine: true }).partial(),
  }),
  z.strictObject({ type: z.literal('remove-run'), runId: runIdSchema }),
  z.strictObject({
    type: z.literal('order-runs'),
    runIds: z.array(runIdSchema).max(10_000),
  }),
  z.strictObject({
    type: z.literal('insert-vertex'),
    runId: runIdSchema,
    index: z.int().min(0),
    vertex: vertexSchema,
  }),
  z.strictObject({
    type: z.literal('move-vertex'),
    runId: runIdSchema,
    vertexId: vertexIdSchema,
    to: paperPointSchema,
  }),
  /** Moves points together; zones and stations of straights that move whole go along. */
  z.strictObject({
    type: z.literal('move-vertices'),
    runId: runIdSchema,
    vertexIds: z.array(vertexIdSchema).min(1).max(200),
    by: z.strictObject({ x: coordinate, y: coordinate }).readonly(),
  }),
  z.strictObject({ type: z.literal('remove-vertex'), runId: runIdSchema, vertexId: vertexIdSchema }),
  z.strictObject({
    type: z.literal('pin-corner'),
    runId: runIdSchema,
    vertexId: vertexIdSchema,
    treatment: z.enum(cornerTreatments).nullable(),
  }),

  z.strictObject({ type: z.literal('add-zone'), zone: zoneSchema }),
  z.strictObject({
    type: z.literal('change-zone'),
    zoneId: zoneIdSchema,
    changes: zoneSchema.unwrap().omit({ id: true, runId: true }).partial(),
  }),
  z.strictObject({ type: z.literal('remove-zone'), zoneId: zoneIdSchema }),

  z.strictObject({ type: z.literal('want-station'), station: wantedStationSchema }),
  z.strictObject({
    type: z.literal('change-station'),
    stationId: stationIdSchema,
    changes: wantedStationSchema.unwrap().omit({ id: true, runId: true }).partial(),
  }),
  z.strictObject({ type: z.literal('remove-station'), stationId: stationIdSchema }),

  /** The stretch from a point to the next becomes the arc through `through`, or straight again. */
  z.strictObject({
    type: z.literal('bend-straight'),
    runId: runIdSchema,
    vertexId: vertexIdSchema,
    through: paperPointSchema.nullable(),
  }),

  /** The length on site of the straight that starts at a point; null takes it back. */
  z.strictObject({
    type: z.literal('measure-on-site'),
    runId: runIdSchema,
    vertexId: vertexIdSchema,
    siteMeasure: siteMeasureSchema.nullable(),
  }),
  z.strictObject({ type: z.literal('set-quote-terms'), quoteTerms: quoteTermsSchema.nullable() }),
  z.strictObject({ type: z.literal('set-issue-settings'), issueSettings: issueSettingsSchema.nullable() }),

  z.strictObject({ type: z.literal('keep-fit'), fit: keptFitSchema }),
  z.strictObject({ type: z.literal('release-fit'), runId: runIdSchema }),

  /** The first way in that a project gets is the chosen one. */
  z.strictObject({ type: z.literal('add-way-in'), wayIn: drawnWayInSchema }),
  z.strictObject({
    type: z.literal('name-way-in'),
    wayInId: wayInIdSchema,
    name: z.string().min(1).max(120),
  }),
  z.strictObject({ type: z.literal('remove-way-in'), wayInId: wayInIdSchema }),
  z.strictObject({ type: z.literal('choose-way-in'), wayInId: wayInIdSchema }),
  z.strictObject({
    type: z.literal('add-obstacle'),
    wayInId: wayInIdSchema,
    /** Its place in the way, from 0. */
    index: z.int().min(0),
    obstacle: drawnObstacleSchema,
  }),
  z.strictObject({
    type: z.literal('change-obstacle'),
    wayInId: wayInIdSchema,
    obstacle: drawnObstacleSchema,
  }),
  z.strictObject({
    type: z.literal('move-obstacle'),
    wayInId: wayInIdSchema,
    obstacleId: obstacleIdSchema,
    toIndex: z.int().min(0),
  }),
  z.strictObject({
    type: z.literal('remove-obstacle'),
    wayInId: wayInIdSchema,
    obstacleId: obstacleIdSchema,
  }),
  /** Ties runs to the chosen way in, or lets them go: nothing wider than what passes. */
  z.strictObject({
    type: z.literal('limit-runs'),
    runIds: z.array(runIdSchema).min(1).max(10_000),
    isLimited: z.boolean(),
  }),
  z.strictObject({ type: z.literal('describe-vehicle'), vehicle: vehicleSchema.nullable() }),
]);

/** Several commands as one step: one label, one undo. Nothing happens when any of them is refused. */
const togetherCommandSchema = z.strictObject({
  type: z.literal('together'),
  label: z.string().min(1).max(120),
  commands: z.array(simpleCommandSchema).min(1).max(2000),
});

export const commandSchema = z.union([togetherCommandSchema, simpleCommandSchema]);

export type SimpleCommand = z.infer<typeof simpleCommandSchema>;
export type Command = z.infer<typeof commandSchema>;
