import { z } from 'zod';
import { projectIdSchema, runIdSchema } from '../document/ids.ts';
import { bytes, file, nothing, password, projectRow, revision } from './apiShapes.ts';
import { importChoices, importOutcomes, issueRelations } from './bundle/importChoice.ts';
import { purgeMethods } from './purge/purgeMethods.ts';
import { projectSearchSchema } from './search/projectSearch.ts';

/** The API's methods of the archive as a whole: finding projects again, project files, history, health. */

const text = z.string();
const count = z.int().min(0);

const runFacts = z.strictObject({
  runId: runIdSchema,
  name: text,
  straightsMm: z.array(z.number()).readonly(),
  turnsDeg: z.array(z.number()).readonly(),
  pieces: count.nullable(),
});

const picture = z
  .strictObject({
    width: z.number(),
    height: z.number(),
    runs: z
      .array(z.strictObject({ points: z.array(z.number()).readonly(), isClosed: z.boolean() }))
      .readonly(),
  })
  .nullable();

const facts = z.strictObject({
  version: count,
  words: z.array(text).readonly(),
  nameKey: text,
  numberKey: text,
  clientKey: text,
  retainUntil: text,
  openQuestions: count,
  rangeId: text,
  stations: z.array(text).readonly(),
  plans: z.array(z.strictObject({ sha256: text, fileName: text })).readonly(),
  runs: z.array(runFacts).readonly(),
  picture,
});

const facet = z.array(z.strictObject({ value: text, count })).readonly();
const change = {
  kind: z.enum(['command', 'undo', 'redo']),
  label: text,
  at: text,
  by: text.nullable(),
};
const side = z.strictObject({
  changes: count,
  lastChanges: z.array(z.strictObject(change)).readonly(),
  picture,
});
const runSide = z.strictObject({ lengthMm: z.number().nullable(), pieces: count.nullable() });
const issueSide = z.strictObject({
  issuedAt: text,
  issuedBy: text,
  purpose: text,
  files: count,
  inputsSha256: text,
});
const searchName = z.string().trim().min(1).max(80);

export const archiveMethods = {
  /** How the archive is; where it is damaged, which of its backups are good and what to do. */
  'archive-health': {
    input: nothing,
    output: z.strictObject({
      state: z.enum(['sound', 'read-only', 'damaged']),
      problems: z.array(text).readonly(),
      advice: text,
      notices: z.array(text).readonly(),
      place: text,
      backups: z
        .array(z.strictObject({ name: text, at: text, byteLength: count, isGood: z.boolean().nullable() }))
        .readonly(),
    }),
  },

  /** One page of the projects that a search finds, with what each is found by. */
  'search-projects': {
    input: z.strictObject({
      search: projectSearchSchema,
      offset: count.max(10_000_000).optional(),
      most: z.int().min(1).max(200).optional(),
    }),
    output: z.strictObject({
      total: count,
      projects: z.array(z.strictObject({ project: projectRow, facts: facts.nullable() })).readonly(),
      states: facet,
      clients: facet,
      isPartial: z.boolean(),
    }),
  },
  /** All that a search finds, as CSV. */
  'export-project-list': { input: z.strictObject({ search: projectSearchSchema }), output: file },
  /** Runs of other projects of the same shape and about the same lengths, the likest first. */
  'similar-runs': {
    input: z.strictObject({
      projectId: projectIdSchema,
      runId: runIdSchema,
      most: z.int().min(1).max(100).optional(),
    }),
    output: z.strictObject({
      runs: z
        .array(
          z.strictObject({
            project: projectRow,
            runId: runIdSchema,
            runName: text,
            lengthMm: z.number(),
            differenceMm: z.number(),
          }),
        )
        .readonly(),
    }),
  },
  'list-saved-searches': {
    input: nothing,
    output: z.strictObject({
      searches: z.array(z.strictObject({ name: text, search: projectSearchSchema })).readonly(),
    }),
  },
  /** Keeps a search by name; another of that name gives way. */
  'save-search': {
    input: z.strictObject({ name: searchName, search: projectSearchSchema }),
    output: nothing,
  },
  'remove-saved-search': { input: z.strictObject({ name: searchName }), output: nothing },

  /** Makes a project at state enquiry of one plan file; none where a project has that very file already. */
  'take-in-enquiry': {
    input: z.strictObject({ fileName: z.string().min(1).max(300), password, bytes }),
    output: z.strictObject({
      projectId: projectIdSchema,
      name: text,
      outcome: z.enum(['made', 'known']),
      pages: count,
      /** Why the first page's text can't be sought. */
      unread: text.nullable(),
    }),
  },

  /** A project with all its changes, plans, stock and issues as one file (`src/app/bundle/bundleFormat.ts`). */
  'export-project': {
    input: z.strictObject({
      projectId: projectIdSchema,
      /** Leaves the files that were issued out, to stay small; their numbers go along. */
      withoutIssued: z.boolean().optional(),
    }),
    output: file,
  },
  /**
   * Takes a project file in. Nothing is written unless all of it is sound; taking it in again changes nothing. Where
   * this archive's project has parted from it, `choice` says what a person chose; without it that is refused with
   * `bundle-project-differs`. Issues are united by number; where one number stands for two issues, all but `copy` is
   * refused with `bundle-issue-differs`.
   */
  'import-project': {
    input: z.strictObject({ bytes, choice: z.enum(importChoices).optional() }),
    output: z.strictObject({
      projectId: projectIdSchema,
      name: text,
      outcome: z.enum(importOutcomes),
      issuesAdded: count,
    }),
  },

  /** A project file beside this archive's project of the same id. Changes nothing. */
  'compare-project-file': {
    input: z.strictObject({ bytes }),
    output: z.strictObject({
      projectId: projectIdSchema,
      name: text,
      relation: z.enum(['new', 'same', 'behind', 'ahead', 'parted']),
      /** How many changes both have. */
      common: count,
      mine: side.nullable(),
      theirs: side,
      differences: z.array(z.strictObject({ what: text, mine: text, theirs: text })).readonly(),
      runs: z
        .array(z.strictObject({ name: text, mine: runSide.nullable(), theirs: runSide.nullable() }))
        .readonly(),
      /** Numbers under which the two do not have the same issue. */
      issues: z
        .array(
          z.strictObject({
            number: count,
            relation: z.enum(issueRelations),
            mine: issueSide.nullable(),
            theirs: issueSide.nullable(),
          }),
        )
        .readonly(),
    }),
  },

  /** Every change of a project, the oldest first. `by` is null where it was not noted who made it. */
  'project-history': {
    input: z.strictObject({ projectId: projectIdSchema }),
    output: z.strictObject({
      changes: z
        .array(
          z.strictObject({
            revision,
            ...change,
            /** What exactly, as far as it can be said in a line: which run, from what to what; may be empty. */
            detail: text,
          }),
        )
        .readonly(),
      /** What was issued, the first first, with the change after which it stands. */
      issues: z
        .array(
          z.strictObject({ number: count, at: text, by: text, purpose: text, after: revision, files: count }),
        )
        .readonly(),
    }),
  },
  /** A new project as this one was after a change; 0 is the beginning. */
  'copy-project-at': {
    input: z.strictObject({ projectId: projectIdSchema, revision }),
    output: z.strictObject({ projectId: projectIdSchema, name: text }),
  },
  ...purgeMethods,
} as const;
