import { z } from 'zod';
import { projectIdSchema } from '../../document/ids.ts';
import { issuePurposes } from '../../document/issueSettings.ts';
import { quoteSettingsSchema } from '../../quote/quoteSettings.ts';
import { file, password, revision, sha256 } from '../apiShapes.ts';

/** The API's methods of what leaves the office: preview, issue, list, save again. */

const text = z.string();
const count = z.int().min(0);
const number = z.int().min(1).max(100_000);
const documentKey = z.string().min(1).max(200);
const fileName = z.string().min(1).max(300);
const draftId = z.string().min(1).max(100);
const unit = z.enum(['mm', 'ft-in']).optional();
const purpose = z.enum(issuePurposes);
const paper = z.enum(['iso', 'us']);
/** Passwords of plans by their SHA-256. */
const passwords = z.record(sha256, password.unwrap()).optional();

const changes = z.array(z.strictObject({ where: text, what: text, was: text, is: text })).readonly();

const entry = z.strictObject({
  document: text,
  fileName: text,
  mediaType: text,
  byteLength: count,
  sha256,
});

const issue = z.strictObject({
  number,
  issuedAt: text,
  issuedBy: text,
  purpose: text,
  revision,
  program: text,
  inputsSha256: sha256,
  files: z.array(entry).readonly(),
});

export const issueMethods = {
  /** What could be issued now: its number, the documents to choose from, what is missing, what changed since the last. */
  'issue-prospect': {
    input: z.strictObject({ projectId: projectIdSchema, unit }),
    output: z.strictObject({
      number,
      letter: text,
      /** The day that it would carry, in UTC. */
      date: text,
      revision,
      by: text,
      missing: z.strictObject({ step: z.enum(['plan', 'scale', 'runs', 'fit']), words: text }).nullable(),
      documents: z.array(z.strictObject({ key: text, name: text })).readonly(),
      /** The issue that `changes` are since; null before the first. */
      since: number.nullable(),
      changes,
    }),
  },
  /** Fixes what an issue would be made from. Nothing is kept before `issue`. */
  'begin-issue': {
    input: z.strictObject({
      projectId: projectIdSchema,
      /** All where it is left out. */
      documents: z.array(documentKey).min(1).max(500).readonly().optional(),
      purpose: purpose.optional(),
      paper: paper.optional(),
      by: z.string().max(200).optional(),
      /** In place of the project's own terms. */
      quote: quoteSettingsSchema.unwrap().partial().optional(),
      passwords,
      /** False for a preview that will not be issued: its manifest says so. */
      isRecorded: z.boolean().optional(),
    }),
    output: z.strictObject({
      draftId: text,
      number,
      letter: text,
      at: text,
      by: text,
      purpose,
      documents: z.array(text).readonly(),
    }),
  },
  /** Draws one document of a preview. */
  'draw-issue-document': {
    input: z.strictObject({ draftId, document: documentKey }),
    output: z.strictObject({
      files: z.array(z.strictObject({ fileName: text, mediaType: text, byteLength: count })).readonly(),
    }),
  },
  /** The files of a preview that is drawn whole, with manifest and sums: exactly what `issue` keeps. */
  'list-draft-files': {
    input: z.strictObject({ draftId }),
    output: z.strictObject({ files: z.array(entry).readonly() }),
  },
  'draft-file': { input: z.strictObject({ draftId, fileName }), output: file },
  /** Issues a preview: its bytes are kept for good, and the project's state becomes `issued`. */
  issue: {
    input: z.strictObject({ draftId }),
    output: z.strictObject({ issue, revision }),
  },

  'list-issued': {
    input: z.strictObject({ projectId: projectIdSchema }),
    output: z.strictObject({ issues: z.array(issue).readonly() }),
  },
  /** One file of an issue, as it went out. */
  'issued-file': { input: z.strictObject({ projectId: projectIdSchema, number, fileName }), output: file },
  /** All files of an issue as one ZIP archive. */
  'issued-zip': { input: z.strictObject({ projectId: projectIdSchema, number }), output: file },
  /** Draws an issue again from its kept inputs and says which files come out the same. Changes nothing. */
  'draw-issue-again': {
    input: z.strictObject({ projectId: projectIdSchema, number, passwords }),
    output: z.strictObject({
      isSameProgram: z.boolean(),
      madeWith: text,
      files: z.array(z.strictObject({ fileName: text, isSame: z.boolean() })).readonly(),
    }),
  },
  /** What changed from one issue to another, or, where `to` is left out, to the project as it is. */
  'compare-issues': {
    input: z.strictObject({ projectId: projectIdSchema, from: number, to: number.optional(), unit }),
    output: z.strictObject({ changes }),
  },
} as const;
