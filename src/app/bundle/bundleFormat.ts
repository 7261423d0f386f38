import { z } from 'zod';
import { projectIdSchema } from '../../document/ids.ts';
import { patchSchema } from '../../document/patch.ts';

/**
 * The project file: one project as one open, documented file. It is a ZIP archive (PKWARE APPNOTE) with these entries
 * and no others:
 *
 * - `manifest.json`: the format and its version, who made the file and when, whether what was issued travels along, and
 *   for every other entry its path, its length in bytes and its SHA-256 in lower-case hexadecimal.
 * - `project.json`: the project's id, the document as it is now, and every change that led to it, the oldest first, with
 *   its words, its time (ISO 8601, UTC), the name of the account that made it, and a patch of RFC 6902 operations
 *   (paths as arrays) that can be walked both ways.
 * - `stock.json`: every version of a stock range that the document names.
 * - `plans/<SHA-256>.pdf`: every plan that the project uses or used, byte for byte as it came in.
 * - `issues.json` (from version 2 on): the last number that was given out, and every issue with its number, its date, who
 *   issued it, what for, from which change and with which program, and the name, length and SHA-256 of its inputs and of
 *   each of its files.
 * - `issued/<SHA-256>` (from version 2 on): the inputs and the files of the issues, byte for byte as they were issued,
 *   each once however often it was issued. None of them is there where the manifest's `issued` is `left-out`; the
 *   numbers in `issues.json` are given out all the same.
 *
 * All JSON is in UTF-8. Times and account names of changes and issues travel along; nothing else of the machine does. A
 * file of an older format version opens; one of a newer version is refused. Version 1 had no issues.
 */
export const bundleFormat = 'footrail-project';
export const bundleFormatVersion = 2;
/** The first version that carries what was issued. */
export const issuesSinceVersion = 2;

export const bundlePaths = {
  manifest: 'manifest.json',
  project: 'project.json',
  stock: 'stock.json',
  issues: 'issues.json',
} as const;

export const issuedPathOf = (sha256: string): string => `issued/${sha256}`;

/** The SHA-256 that the path of something issued names; null for other paths. */
export const issuedOfPath = (path: string): string | null =>
  /^issued\/([0-9a-f]{64})$/.exec(path)?.[1] ?? null;

export const planPathOf = (sha256: string): string => `plans/${sha256}.pdf`;

/** The SHA-256 that a plan's path names; null for other paths. */
export const planOfPath = (path: string): string | null =>
  /^plans\/([0-9a-f]{64})\.pdf$/.exec(path)?.[1] ?? null;

/** The most that a project file may hold, each in bytes unpacked. */
export const bundleLimits = {
  entries: 20_000,
  manifest: 8 * 1024 * 1024,
  project: 256 * 1024 * 1024,
  stock: 64 * 1024 * 1024,
  plan: 512 * 1024 * 1024,
  issues: 64 * 1024 * 1024,
  issued: 512 * 1024 * 1024,
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
    /** Whether the files of the issues travel along. Not there in version 1. */
    issued: z.enum(['whole', 'left-out']).optional(),
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

const kept = { byteLength: z.int().min(0), sha256 };
const number = z.int().min(1).max(100_000);

export const bundledIssueSchema = z
  .strictObject({
    number,
    issuedAt: instant,
    issuedBy: z.string().max(500),
    purpose: z.string().max(100),
    /** The change of the project that the issued document came from. */
    revision: z.int().min(0),
    program: z.string().max(200),
    inputs: z.strictObject(kept).readonly(),
    files: z
      .array(
        z
          .strictObject({
            document: z.string().max(300),
            fileName: z.string().min(1).max(300),
            mediaType: z.string().max(100),
            ...kept,
          })
          .readonly(),
      )
      .max(2000)
      .readonly(),
  })
  .readonly();
export type BundledIssue = z.infer<typeof bundledIssueSchema>;

export const bundledIssuesSchema = z
  .strictObject({
    /** The highest number that was given out, 0 where none was: the next issue gets a higher one, wherever it is made. */
    lastNumber: z.int().min(0).max(100_000),
    /** The first first. */
    issues: z.array(bundledIssueSchema).max(10_000).readonly(),
  })
  .readonly();
export type BundledIssues = z.infer<typeof bundledIssuesSchema>;
