import { z } from 'zod';
import { jobStates } from '../../document/job.ts';

const date = z.iso.date();
const lengthMm = z.number().min(0).max(10_000_000);
const count = z.int().min(0).max(1_000_000);

export const searchOrders = [
  'changed',
  'name',
  'number',
  'client',
  'state',
  'tender-date',
  'length',
  'pieces',
] as const;
export type SearchOrder = (typeof searchOrders)[number];

/** What projects are sought by. All that is given must hold; an empty search finds every project. */
export const projectSearchSchema = z
  .strictObject({
    /** Each word must begin a word of the job, its runs, stations, plan file names or the text on its plans. */
    words: z.string().max(500).optional(),
    states: z.array(z.enum(jobStates)).max(jobStates.length).optional(),
    /** The client's name, whole. */
    client: z.string().max(200).optional(),
    rangeId: z.string().max(80).optional(),
    /** Items of a stock range; a project must want them all. */
    stations: z.array(z.string().max(80)).max(20).optional(),
    planSha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .optional(),
    tenderFrom: date.optional(),
    tenderTo: date.optional(),
    /** Days in UTC. */
    changedFrom: date.optional(),
    changedTo: date.optional(),
    /** One run at least must be of such a length. */
    runFromMm: lengthMm.optional(),
    runToMm: lengthMm.optional(),
    /** Pieces of all kept fits together. */
    piecesFrom: count.optional(),
    piecesTo: count.optional(),
    /** Projects whose retention ends before this day. */
    retainedBefore: date.optional(),
    order: z.enum(searchOrders).optional(),
    descending: z.boolean().optional(),
  })
  .readonly();

export type ProjectSearch = z.infer<typeof projectSearchSchema>;
