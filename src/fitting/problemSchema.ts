import { type FitProblem, fitProblemSchema, problemLimits } from './fitProblem.ts';
import { firstProblemError, type ProblemError } from './problemErrors.ts';

export {
  type CornerTreatment,
  type FitOrder,
  type FitProblem,
  fitOrders,
  fitProblemSchema,
  type RunEnd,
  type StockItem,
  type WantedStation,
} from './fitProblem.ts';

export type ParsedProblem =
  | { readonly ok: true; readonly problem: FitProblem }
  | { readonly ok: false; readonly error: ProblemError };

/**
 * Reads an unknown value as a fitting problem. Bad input comes back as a value with a kebab-case code, a sentence that
 * says what to do, and where it is (`stock[0].widthMm`). Fields it does not know are ignored, so that a problem of a
 * later version still reads.
 *
 * @example parseProblem({ depthMm: -1 }) // { ok: false, error: { code: 'too-small', path: 'depthMm', message: … } }
 */
export const parseProblem = (value: unknown): ParsedProblem => {
  const parsed = fitProblemSchema.safeParse(value);
  const error = firstProblemError(value, parsed, problemLimits);
  if (error !== undefined) return { ok: false, error };
  if (!parsed.success) throw new Error('A refused problem must carry its error.');
  return { ok: true, problem: parsed.data };
};
