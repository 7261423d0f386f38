import { z } from 'zod';
import { projectIdSchema } from '../../document/ids.ts';
import { nothing, projectRow } from '../apiShapes.ts';

/** The API's methods of letting a client's personal data go. */

const text = z.string();
const count = z.int().min(0);

const counts = {
  changedIn: text,
  tenderIn: text,
  state: text,
  rangeId: text,
  sheets: count,
  runLengthsMm: z.array(z.number()).readonly(),
  pieces: count.nullable(),
  stations: z.array(text).readonly(),
};

const copies = z
  .array(z.strictObject({ name: text, byteLength: count, holds: z.enum(['project', 'unread']) }))
  .readonly();

export const purgeMethods = {
  /** Projects whose retention is over today (UTC), the longest over first. */
  'projects-past-retention': {
    input: nothing,
    output: z.strictObject({
      projects: z
        .array(z.strictObject({ project: projectRow, retainUntil: text, isRemoved: z.boolean() }))
        .readonly(),
    }),
  },
  /** What purging a project would take away, what would stay, and which files would still hold it. Changes nothing. */
  'preview-purge': {
    input: z.strictObject({ projectId: projectIdSchema }),
    output: z.strictObject({
      project: projectRow,
      retainUntil: text,
      isRemoved: z.boolean(),
      goes: z.strictObject({
        changes: count,
        people: z.array(text).readonly(),
        issues: count,
        plans: z.array(z.strictObject({ fileName: text, isShared: z.boolean() })).readonly(),
        savedSearches: z.array(text).readonly(),
      }),
      stays: z.strictObject(counts),
      sameClient: count,
      copies,
    }),
  },
  /** Purges for good. `name` must be the project's own, so that no slip purges another. */
  'purge-project': {
    input: z.strictObject({ projectId: projectIdSchema, name: text.max(200), withCopies: z.boolean() }),
    output: z.strictObject({
      counts: z.strictObject(counts),
      isErased: z.boolean(),
      advice: text,
      copiesRemoved: z.array(text).readonly(),
      copiesLeft: copies,
    }),
  },
  /** What stays of the purged projects. */
  'purged-projects': {
    input: nothing,
    output: z.strictObject({ projects: z.array(z.strictObject({ ...counts, purgedOn: text })).readonly() }),
  },
} as const;
