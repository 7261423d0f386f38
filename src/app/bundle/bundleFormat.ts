import { z } from 'zod';
import { projectIdSchema } from '../../document/ids.ts';
import { patchSchema } from '../../document/patch.ts';

/**
 * The project file: one project as one open, documented file. It is a ZIP archive (PKWARE APPNOTE) with these entries
 * and no others:
 *
 * - `manifest.json`: the format and its version, who made the file and when, and for every other entry its path, its
 *   length in bytes and its SHA-256 in lower-case hexadecimal.
 * - `project.json`: the project's id, the document as it is now, and every change that led to it, the oldest first, with
 *   its words, its time (ISO 8601, UTC), the name of the account that made it, and a patch of RFC 6902 operations
 *   (paths as arrays) that can be walked both ways.
 * - `stock.json`: every version of a stock range that the document names.
 * - `plans/<SHA-256>.pdf`: every plan that the project uses or used, byte for byte as it came in.
 *
 * All JSON is in UTF-8. Times and account names of changes travel along; nothing else of the machine does. A file of an
 * older format version opens; one of a newer version is refused.
 */
export const bundleFormat = 'footrail-project';
export const bundleFormatVersion = 1;

export const bundlePaths = {
  manifest: 'manifest.json',
  project: 'project.json',
  stock: 'stock.json',
} as const;

export const planPathOf = (sha256: string): string => `plans/${sha256}.pdf`;

/** The SHA-256 that a plan's path names; null for other paths. */
export const planOfPath = (path: string): string | null =>
  /^plans\/([0-9a-f]{64})\.pdf$/.exec(path)?.[1] ?? null;

/** The most that a project file may hold, each in bytes unpacked. */
export const bundleLimits = {
  entries: 2000,
  manifest: 1024 * 1024,
  project: 256 * 1024 * 1024,
  stock: 64 * 1024 * 1024,
  plan: 512 * 1024 * 1024,
  whole: 1024 * 1024 * 1024,
} as const;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const instant = z.iso.datetime();

export const manifestSchema = z
  .strictObject({
    format: z.literal(bundleFormat),
    formatVersion: z.int().min(1),
    madeWith: z.string().max(100),
    madeAt: instant,
    project: z.strictObject({ projectId: projectIdSchema, name: z.string().max(200) }),
    entries: z
      .array(
        z.strictObject({
          path: z.string().max(200),
          mediaType: z.string().max(100),
          byteLength: z.int().min(0),
          sha256,
          /** A plan's file name as it came in. */
          fileName: z.string().max(300).optional(),
        }),
      )
      .max(bundleLimits.entries),
  })
  .readonly();
export type Manifest = z.infer<typeof manifestSchema>;

export const bundledProjectSchema = z
  .strictObject({
    projectId: projectIdSchema,
    createdAt: instant,
    /** Of whatever version it was stored in; read by `migrateDocument`. */
    document: z.json(),
    changes: z.array(
      z.strictObject({
        kind: z.enum(['command', 'undo', 'redo']),
        label: z.string().max(200),
        patch: patchSchema,
        at: instant,
        by: z.string().max(200).optional(),
      }),
    ),
  })
  .readonly();
export type BundledProject = z.infer<typeof bundledProjectSchema>;
