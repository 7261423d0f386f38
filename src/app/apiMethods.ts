import { z } from 'zod';
import type { WayInAnswer } from '../access/checkWayIn.ts';
import { commandSchema } from '../document/command.ts';
import { projectIdSchema, runIdSchema, sheetIdSchema } from '../document/ids.ts';
import { patchSchema } from '../document/patch.ts';
import { projectDocumentSchema } from '../document/projectDocument.ts';
import type { FitAnswer } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/fitProblem.ts';
import { fitOrders } from '../fitting/problemSchema.ts';
import { quoteSettingsSchema } from '../quote/quoteSettings.ts';
import type { ReadAnswer } from '../scale/readContract.ts';
import { stockRangeSchema } from '../stock/stockSchema.ts';
import {
  anyBytes,
  bytes,
  contractAnswer,
  file,
  nothing,
  password,
  projectRow,
  revision,
  sha256,
} from './apiShapes.ts';
import { archiveMethods } from './archiveMethods.ts';
import { issueMethods } from './issue/issueMethods.ts';
import { revisionMethods } from './revision/revisionMethods.ts';

/**
 * The one API of the product, as a table: what each method takes and gives. Every host serves exactly this, validates
 * on both sides with it, and publishes it as JSON Schema.
 *
 * Bytes cross in a property named `bytes` at the top of an input or an answer, never deeper (see `wire.ts`).
 */

const page = z.int().min(1).max(100_000);
/** Layers switched on or off by id; all others as the file has them. */
const layers = z.record(z.string().max(300), z.boolean()).optional();
const steps = {
  /** The words of the step that undo would take back, and of the one that redo would do again. */
  undoLabel: z.string().nullable(),
  redoLabel: z.string().nullable(),
};

const openProject = z.strictObject({
  projectId: projectIdSchema,
  revision,
  document: projectDocumentSchema,
  ...steps,
});

const changed = z.strictObject({ revision, patch: patchSchema, ...steps });

const planPage = z.strictObject({
  page,
  widthMm: z.number(),
  heightMm: z.number(),
  sizeName: z.string(),
  rotation: z.number(),
  userUnit: z.number(),
});

const stockRangeRef = z.strictObject({ id: z.string().min(1).max(80), version: z.int().min(1) });
const isStockListSized = (list: Uint8Array): boolean => list.byteLength <= 20_000_000;

/** Amounts of `quote` are whole minor units of the range's currency; what it leaves out is as usual. */
const wantedWorkbook = z.strictObject({
  projectId: projectIdSchema,
  quote: quoteSettingsSchema.unwrap().partial().optional(),
  paper: z.enum(['a4', 'letter']).optional(),
});

export const apiMethods = {
  'app-info': {
    input: nothing,
    output: z.strictObject({ version: z.string(), solverVersion: z.string(), readerVersion: z.string() }),
  },

  /** Last changed first; all of them where no page is asked for. `total` counts them all. */
  'list-projects': {
    input: z.strictObject({
      offset: z.int().min(0).max(10_000_000).optional(),
      most: z.int().min(1).max(10_000).optional(),
    }),
    output: z.strictObject({ total: z.int().min(0), projects: z.array(projectRow).readonly() }),
  },
  'create-project': { input: z.strictObject({ name: z.string().min(1).max(200) }), output: openProject },
  'open-project': { input: z.strictObject({ projectId: projectIdSchema }), output: openProject },
  'open-demo': { input: nothing, output: openProject },
  'remove-project': { input: z.strictObject({ projectId: projectIdSchema }), output: nothing },

  /** Accepted and on disk when it answers. Refused with `revision-conflict` when the project has moved on. */
  'apply-command': {
    input: z.strictObject({ projectId: projectIdSchema, revision, command: commandSchema }),
    output: changed,
  },
  undo: { input: z.strictObject({ projectId: projectIdSchema, revision }), output: changed },
  redo: { input: z.strictObject({ projectId: projectIdSchema, revision }), output: changed },

  /** Looks into a plan and keeps its original bytes. */
  'take-in-plan': {
    input: z.strictObject({ fileName: z.string().min(1).max(300), password, bytes }),
    output: z.strictObject({ sha256, pages: z.array(planPage).readonly() }),
  },
  'plan-bytes': {
    input: z.strictObject({ sha256 }),
    output: z.strictObject({ fileName: z.string(), bytes: anyBytes }),
  },
  /** What the sheet says of itself: size, linework counts, text count, layers, scale evidence. */
  'read-sheet': {
    input: z.strictObject({ sha256, page, password, layers }),
    output: z.strictObject({ reading: contractAnswer<ReadAnswer>() }),
  },
  /** The sheet's linework in wire form (`decodeLinework` in src/sheet). */
  'sheet-linework': {
    input: z.strictObject({ sha256, page, password, layers }),
    output: z.strictObject({ bytes: anyBytes }),
  },
  /** The `footrail read` contract for a file that need not belong to a project. */
  'read-plan': {
    input: z.strictObject({ page: page.optional(), password, bytes }),
    output: z.strictObject({ reading: contractAnswer<ReadAnswer>() }),
  },

  /** The `footrail fit` contract. */
  fit: {
    input: z.strictObject({
      problem: z.json(),
      alternatives: z.int().min(1).max(20).optional(),
      order: z.enum(fitOrders).optional(),
    }),
    output: z.strictObject({ fit: contractAnswer<FitAnswer>() }),
  },
  /** The fitting problem that a run of a project poses, and its answer. */
  'fit-run': {
    input: z.strictObject({
      projectId: projectIdSchema,
      runId: runIdSchema,
      alternatives: z.int().min(1).max(20).optional(),
    }),
    output: z.strictObject({ problem: contractAnswer<FitProblem>(), fit: contractAnswer<FitAnswer>() }),
  },
  /** The `footrail access` contract. */
  access: {
    input: z.strictObject({ wayIn: z.json() }),
    output: z.strictObject({ access: contractAnswer<WayInAnswer>() }),
  },

  'list-stock-ranges': {
    input: nothing,
    output: z.strictObject({ ranges: z.array(stockRangeSchema).readonly() }),
  },
  /**
   * Keeps a range as the next version of its id; what `range.version` says is passed over. `after` is the latest
   * version that the sender knew of, 0 for a new id; refused where the archive has another.
   */
  'save-stock-range': {
    input: z.strictObject({ range: stockRangeSchema, after: z.int().min(0) }),
    output: z.strictObject({ range: stockRangeSchema }),
  },
  /** The pieces of a version as CSV. */
  'stock-range-csv': { input: stockRangeRef, output: file },
  /** Reads a CSV list as a proposal for the version after the named one, whose rules stay. Saves nothing. */
  'read-stock-csv': {
    input: stockRangeRef.extend({ bytes: anyBytes.refine(isStockListSized, 'more than 20 MB') }),
    output: z.strictObject({
      reading: z.discriminatedUnion('ok', [
        z.strictObject({ ok: z.literal(true), range: stockRangeSchema }),
        z.strictObject({
          ok: z.literal(false),
          errors: z
            .array(
              z.strictObject({
                line: z.int(),
                column: z.string().optional(),
                code: z.string(),
                message: z.string(),
              }),
            )
            .readonly(),
        }),
      ]),
    }),
  },

  'export-schedule': { input: z.strictObject({ projectId: projectIdSchema }), output: file },
  'export-plan': {
    input: z.strictObject({ projectId: projectIdSchema, sheetId: sheetIdSchema, password }),
    output: file,
  },
  /** Pieces, extras, leftovers, services, installation order, way in, site measure and quote as XLSX. */
  'export-workbook': { input: wantedWorkbook, output: file },
  /** The workbook's tables, each as a CSV file; `text` begins with a byte order mark. */
  'export-csvs': {
    input: wantedWorkbook,
    output: z.strictObject({
      files: z
        .array(z.strictObject({ fileName: z.string(), mediaType: z.string(), text: z.string() }))
        .readonly(),
    }),
  },
  /** Plan, developed elevations and tables of a sheet's runs, to print to scale on ISO 216 or US sheets. */
  'export-setting-out': {
    input: z.strictObject({
      projectId: projectIdSchema,
      sheetId: sheetIdSchema,
      password,
      paper: z.enum(['iso', 'us']).optional(),
    }),
    output: file,
  },
  /** The runs of a sheet as a CAD file, in mm at true size. */
  'export-dxf': {
    input: z.strictObject({ projectId: projectIdSchema, sheetId: sheetIdSchema, password }),
    output: file,
  },
  ...issueMethods,
  ...revisionMethods,
  ...archiveMethods,
} as const;

export type ApiMethods = typeof apiMethods;
export type ApiMethod = keyof ApiMethods;
export type ApiInput<Method extends ApiMethod> = z.input<ApiMethods[Method]['input']>;
export type ApiOutput<Method extends ApiMethod> = z.output<ApiMethods[Method]['output']>;

/** Why a call was not carried out: a kebab-case code, a sentence, and where in the input. */
export interface ApiError {
  readonly code: string;
  readonly message: string;
  readonly path?: string;
}

export type ApiAnswer<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: ApiError };

/** True for the name of a method of the API. */
export const isApiMethod = (name: string): name is ApiMethod => Object.hasOwn(apiMethods, name);
