import { z } from 'zod';
import { projectIdSchema, runIdSchema, sheetIdSchema } from '../../document/ids.ts';
import { patchSchema } from '../../document/patch.ts';
import { paperPointSchema } from '../../document/wayInRecords.ts';
import { password, revision, sha256 } from '../apiShapes.ts';

/** The API's methods of plan revisions: lay a later page on a sheet, carry its runs over, say what changed. */

const page = z.int().min(1).max(100_000);
const text = z.string();

/** The same place picked on the old sheet and on the new page, in user-space units. */
const pickedPair = z.strictObject({ old: paperPointSchema, new: paperPointSchema }).readonly();
const picks = z.array(pickedPair).min(2).max(50).readonly().optional();

const revisedPage = {
  projectId: projectIdSchema,
  /** The sheet that the page follows. */
  sheetId: sheetIdSchema,
  sha256,
  page,
  password,
  /** The password of the old sheet's plan. */
  oldPassword: password,
  /** Left out: the two are matched by their linework. */
  picks,
};

const part = z.tuple([z.number(), z.number(), z.number(), z.number()]).readonly();

/** What differs between the two, in the new page's user space: x0, y0, x1, y1 of each part. */
const changes = z
  .strictObject({
    gone: z.array(part).readonly(),
    added: z.array(part).readonly(),
    moved: z
      .array(
        z
          .strictObject({ gone: z.int().min(0), added: z.int().min(0), x: z.number(), y: z.number() })
          .readonly(),
      )
      .readonly(),
  })
  .readonly();

const registration = z.discriminatedUnion('isRegistered', [
  z
    .strictObject({
      isRegistered: z.literal(true),
      isSure: z.boolean(),
      method: z.enum(['linework', 'picks']),
      /** x' = a x - b y + e, y' = b x + a y + f. */
      map: z.strictObject({ a: z.number(), b: z.number(), e: z.number(), f: z.number() }).readonly(),
      /** +/- (k = 2) of a point carried over, in user-space units of the new page. */
      plusMinusPt: z.number(),
      reasons: z.array(text).readonly(),
      changes,
    })
    .readonly(),
  z.strictObject({ isRegistered: z.literal(false), reasons: z.array(text).readonly() }).readonly(),
]);

const steps = { undoLabel: z.string().nullable(), redoLabel: z.string().nullable() };

const finding = z
  .strictObject({
    runId: runIdSchema,
    run: text,
    /** `Straight 1`, `End`, the zone's name. */
    where: text,
    became: z.enum(['moved', 'gone']),
    /** How far it moved in the room, mm; 0 where it is gone. */
    byMm: z.number(),
  })
  .readonly();

export const revisionMethods = {
  /** How a page lies to a sheet and what differs. Changes nothing. */
  'register-revision': {
    input: z.strictObject(revisedPage),
    output: z.strictObject({ registration }),
  },
  /** The same for a sheet that follows another already, as it was accepted. */
  'compare-linework': {
    input: z.strictObject({
      projectId: projectIdSchema,
      sheetId: sheetIdSchema,
      password,
      oldPassword: password,
    }),
    output: z.strictObject({ registration }),
  },
  /**
   * Puts the page into the project as the later revision of the sheet, with the sheet's scale and its runs carried over.
   * Refused with `revision-not-registered` where nothing says how it lies.
   */
  'revise-sheet': {
    input: z.strictObject({
      ...revisedPage,
      /** The project's revision that this goes on top of; left out: whichever it is at. */
      revision: revision.optional(),
      /** What the architect calls it, such as `B`. */
      name: z.string().max(20),
      /** Whether runs follow lines that moved. */
      follow: z.boolean(),
    }),
    output: z.strictObject({
      revision,
      patch: patchSchema,
      ...steps,
      sheetId: sheetIdSchema,
      findings: z.array(finding).readonly(),
    }),
  },
  /** What a revised sheet changes in the takeoff beyond the uncertainty, run by run, as it is traced now. */
  'compare-revision': {
    input: z.strictObject({
      projectId: projectIdSchema,
      /** The later sheet. */
      sheetId: sheetIdSchema,
      unit: z.enum(['mm', 'ft-in']).optional(),
    }),
    output: z.strictObject({
      changes: z
        .array(z.strictObject({ where: text, what: text, was: text, is: text }).readonly())
        .readonly(),
    }),
  },
} as const;
