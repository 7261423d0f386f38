import { z } from 'zod';

/** A place in the page's unrotated user space. */
const place = z.tuple([z.number(), z.number()]);

/** [xMin, yMin, xMax, yMax] in the page's unrotated user space. */
const boxSchema = z.tuple([z.number(), z.number(), z.number(), z.number()]);

const unitSchema = z.enum(['mm', 'cm', 'm', 'in', 'ft']);

export const scaleEvidenceSchema = z.object({
  kind: z.enum(['note', 'dimensions', 'measure-dictionary', 'picked']),
  ratio: z.number().positive(),
  relativeUncertainty: z.number().nonnegative().optional(),
  unit: unitSchema.optional(),
  unitAssumed: z.boolean().optional(),
  text: z.string().optional(),
  supporting: z.int().optional(),
  of: z.int().optional(),
});

const statusSchema = z.enum(['agreed', 'conflict', 'single', 'none']);

const viewSchema = z.object({
  bbox: boxSchema,
  name: z.string().optional(),
  scale: z.object({
    ratio: z.number().positive().nullable(),
    relativeUncertainty: z.number().nonnegative().nullable(),
    status: statusSchema,
    evidence: z.array(scaleEvidenceSchema),
  }),
});

export const scaleSchema = z.object({
  /** Real mm per paper mm; null where the status is `none`. */
  ratio: z.number().positive().nullable(),
  /** Expanded, k = 2. */
  relativeUncertainty: z.number().nonnegative().nullable(),
  status: statusSchema,
  evidence: z.array(scaleEvidenceSchema),
  printedFactor: z.number().positive().optional(),
  ratioX: z.number().positive().optional(),
  ratioY: z.number().positive().optional(),
  views: z.array(viewSchema).optional(),
});

/** A dimension found on the sheet. Lengths in mm in the room. */
const dimensionSchema = z.object({
  text: z.string(),
  at: place,
  statedMm: z.number(),
  drawnMm: z.number(),
  /** The measured span, where it agrees. */
  span: z.tuple([place, place]).optional(),
});

/** What `footrail read` answers, and the app's reading of a sheet. Later work only adds optional fields. */
export const readAnswerSchema = z.object({
  pages: z.int(),
  page: z.int(),
  sheet: z.object({
    widthMm: z.number(),
    heightMm: z.number(),
    name: z.string(),
    rotation: z.number(),
    userUnit: z.number(),
    mediaBox: boxSchema.optional(),
    viewBox: boxSchema.optional(),
  }),
  linework: z.object({ segments: z.int(), curves: z.int() }),
  /** Number of texts. */
  text: z.int(),
  layers: z.array(z.object({ id: z.string(), name: z.string(), visible: z.boolean() })),
  scale: scaleSchema,
  /** True for a sheet that is a picture and has no linework. */
  isPicture: z.boolean().optional(),
  dimensions: z
    .object({
      agreeing: z.array(dimensionSchema),
      disagreeing: z.array(dimensionSchema),
      chains: z
        .array(z.object({ text: z.string(), at: place, totalMm: z.number(), sumMm: z.number() }))
        .optional(),
    })
    .optional(),
  /** What the person should know or be asked, in words. */
  remarks: z.array(z.object({ code: z.string(), message: z.string() })).optional(),
});

export type ReadAnswer = z.infer<typeof readAnswerSchema>;
