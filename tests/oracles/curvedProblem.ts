import { z } from 'zod';
import { firstIssueError, type ProblemError } from '../../src/fitting/problemErrors.ts';

/** What a curved run may be asked for at most. */
export const curvedLimits = { radiusMm: 200_000, depthMm: 10_000, stockLines: 200, pieces: 200 } as const;

const id = z.string().min(1).max(200);
const lengthUpTo = (maxMm: number) => z.number().min(0).max(maxMm);

/** A run whose front is one circular arc. Lengths in mm, angles in degrees. */
export const curvedProblemSchema = z.object({
  /** Radius of the front line. */
  radiusMm: z.number().min(1).max(curvedLimits.radiusMm),
  /** How far the front turns from its start to its end. */
  sweepDeg: z.number().gt(0).max(360),
  /**
   * On which side of the curve the front is: `outside` where the customer stands outside the circle (the working side
   * has the centre), `inside` where the customer stands inside it.
   */
  front: z.enum(['outside', 'inside']),
  depthMm: z.number().min(1).max(curvedLimits.depthMm),
  /** Expanded uncertainty (k = 2) of the front's length along the arc. */
  uncertaintyMm: lengthUpTo(100_000).optional(),
  ends: z.tuple([z.enum(['wall', 'exposed', 'meets']), z.enum(['wall', 'exposed', 'meets'])]).readonly(),
  stock: z
    .array(
      z.object({
        id,
        widthMm: z.number().min(1).max(100_000),
        price: z.number().min(0).max(10_000_000).optional(),
      }),
    )
    .max(curvedLimits.stockLines)
    .readonly(),
  /** Least gap between neighbours where they are nearest. */
  jointMm: lengthUpTo(1_000).optional(),
  /** How far the curved top may overhang a module's straight front at most. Left out: no bound. */
  overhangMaxMm: lengthUpTo(100_000).optional(),
  fillerMaxMm: lengthUpTo(100_000),
  maxWidthMm: z.number().min(1).max(100_000).optional(),
});

export type CurvedProblem = Readonly<z.infer<typeof curvedProblemSchema>>;

export type ParsedCurve =
  | { readonly ok: true; readonly problem: CurvedProblem }
  | { readonly ok: false; readonly error: ProblemError };

/** Reads an unknown value as a curved run; bad input comes back as a value, as in `parseProblem`. */
export const parseCurvedProblem = (value: unknown): ParsedCurve => {
  const parsed = curvedProblemSchema.safeParse(value);
  if (!parsed.success) return { ok: false, error: firstIssueError(value, parsed.error.issues[0]!) };
  const problem = parsed.data;
  const seen = new Set<string>();
  for (const [index, { id: own }] of problem.stock.entries()) {
    if (seen.has(own)) {
      const path = `stock[${index}].id`;
      return {
        ok: false,
        error: { code: 'duplicate-id', message: `${path}: "${own}" is used twice.`, path },
      };
    }
    seen.add(own);
  }
  if (problem.front === 'outside' && problem.depthMm >= problem.radiusMm) {
    const message = `depthMm: a depth of ${problem.depthMm} reaches past the centre of a radius of ${problem.radiusMm}.`;
    return { ok: false, error: { code: 'radius-too-small', message, path: 'depthMm' } };
  }
  return { ok: true, problem };
};
