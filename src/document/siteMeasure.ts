import { z } from 'zod';

/**
 * A length measured on site: it takes the place of the traced length of a straight. What was drawn stays as it is, so
 * that both can be shown side by side and the measure taken back.
 */
export const siteMeasureSchema = z
  .strictObject({
    lengthMm: z.number().positive().max(100_000),
    /** +/- (k = 2) of the measure, in mm. */
    plusMinusMm: z.number().min(0).max(1_000),
    measuredBy: z.string().max(120),
    /** ISO 8601 calendar date; empty where it was not noted. */
    measuredOn: z.union([z.literal(''), z.iso.date()]),
  })
  .readonly();

export type SiteMeasure = z.infer<typeof siteMeasureSchema>;
