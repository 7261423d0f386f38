import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitOrder, parseProblem } from '../../src/fitting/problemSchema.ts';

interface OnceWrong {
  readonly what: string;
  readonly order: FitOrder;
  readonly problem: unknown;
  readonly expected?: readonly number[];
}

/** Problems that once were answered wrongly; each score was found by an exhaustive search (tests/oracles/exhaustiveFit.ts). */
const cases: readonly OnceWrong[] = JSON.parse(
  readFileSync(new URL('./onceWrong.json', import.meta.url), 'utf8'),
);

describe('problems that once were answered wrongly', () => {
  for (const [index, { what, order, problem, expected }] of cases.entries()) {
    it(`${index + 1}: ${what}`, () => {
      const parsed = parseProblem(problem);
      if (!parsed.ok) throw new Error(parsed.error.message);
      const answer = fitRun(parsed.problem, { alternatives: 1, order });
      expect(checkFit(parsed.problem, answer)).toEqual([]);
      const score = answer.alternatives[0]?.score;
      expect(score === undefined ? undefined : Object.values(score)).toEqual(expected);
    });
  }
});
