import { z } from 'zod';
import type { PaperPoint } from '../geometry/point.ts';
import { obstacleIdSchema, sheetIdSchema, wayInIdSchema } from './ids.ts';
import { figureNames, obstacleDescription, obstacleKinds, sizeNames } from './obstacleKinds.ts';

/**
 * Ways in as the operator describes them: obstacles in the order of the way, from the kerb to the bar. A size is typed,
 * or picked on a sheet as two paper points, so that it follows the sheet's scale with its +/-.
 */

/** Pages reach 17 m a side (about 48,000 points); a coordinate beyond a million points is a broken pick. */
export const coordinate = z.number().min(-1e6).max(1e6);
export const paperPointSchema = z
  .strictObject({ x: coordinate, y: coordinate })
  .readonly()
  .transform((point) => point as PaperPoint);

const lengthMm = z.number().min(0).max(100_000);

const typedSizeSchema = z.strictObject({ from: z.literal('typed'), lengthMm }).readonly();
const pickedSizeSchema = z
  .strictObject({
    from: z.literal('sheet'),
    sheetId: sheetIdSchema,
    a: paperPointSchema,
    b: paperPointSchema,
    /** Standard uncertainty (k = 1) of each pick, in points of 1/72 in on the paper. */
    pickUncertaintyPt: z.number().min(0).max(1000),
  })
  .readonly();
export const drawnSizeSchema = z.discriminatedUnion('from', [typedSizeSchema, pickedSizeSchema]);

export const drawnObstacleSchema = z
  .strictObject({
    id: obstacleIdSchema,
    kind: z.enum(obstacleKinds),
    name: z.string().max(120),
    sizes: z.partialRecord(z.enum(sizeNames), drawnSizeSchema).readonly(),
    figures: z.partialRecord(z.enum(figureNames), z.number().min(0).max(1_000_000)).readonly(),
    /** +/- (k = 2) of the typed sizes, in mm: 0 for what was measured on site. */
    typedPlusMinusMm: z.number().min(0).max(10_000),
    /** A standard or usual size that nobody has measured here yet. */
    confirmOnSite: z.boolean(),
  })
  .superRefine(({ kind, sizes, figures }, context) => {
    const description = obstacleDescription[kind];
    const check = (
      field: 'sizes' | 'figures',
      given: object,
      needed: readonly string[],
      mayHave: readonly string[],
    ) => {
      const missing = needed.find((name) => !(name in given));
      if (missing !== undefined)
        context.addIssue({ code: 'custom', message: `a ${kind} needs ${missing}`, path: [field, missing] });
      const strange = Object.keys(given).find((name) => !needed.includes(name) && !mayHave.includes(name));
      if (strange !== undefined)
        context.addIssue({ code: 'custom', message: `a ${kind} has no ${strange}`, path: [field, strange] });
    };
    check('sizes', sizes, description.needed, description.mayHave);
    check('figures', figures, description.neededFigures, description.mayHaveFigures);
  })
  .readonly();

const obstaclesMost = 100;

export const drawnWayInSchema = z
  .strictObject({
    id: wayInIdSchema,
    name: z.string().min(1).max(120),
    obstacles: z.array(drawnObstacleSchema).max(obstaclesMost).readonly(),
  })
  .readonly();

/** The load space of the vehicle that brings the pieces, clear of wheel arches, and its payload. */
export const vehicleSchema = z
  .strictObject({
    lengthMm: z.number().positive().max(100_000),
    widthMm: z.number().positive().max(100_000),
    heightMm: z.number().positive().max(100_000),
    payloadKg: z.number().positive().max(1_000_000),
  })
  .readonly();

export type DrawnSize = z.infer<typeof drawnSizeSchema>;
export type DrawnObstacle = z.infer<typeof drawnObstacleSchema>;
export type DrawnWayIn = z.infer<typeof drawnWayInSchema>;
export type DescribedVehicle = z.infer<typeof vehicleSchema>;
