/// <reference lib="webworker" />

import type { FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { displayWords } from '../../src/fitting/fitWords.ts';
import type { FitOrder, FitProblem } from '../../src/fitting/problemSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';

/** Fits runs off the main thread, so that the board never waits for the solver. */
export interface FitRequest {
  readonly key: string;
  readonly problem: FitProblem;
  readonly order: FitOrder;
  readonly alternatives: number;
  /** In which its sentences write lengths. */
  readonly unit: DisplayUnit;
}

export type FitResponse =
  | { readonly key: string; readonly ok: true; readonly answer: FitAnswer }
  | { readonly key: string; readonly ok: false; readonly message: string };

self.addEventListener('message', ({ data }: MessageEvent<FitRequest>) => {
  const { key, problem, order, alternatives, unit } = data;
  const words = displayWords(unit);
  let response: FitResponse;
  try {
    response = { key, ok: true, answer: fitRun(problem, { order, alternatives, words }) };
  } catch (thrown) {
    response = { key, ok: false, message: thrown instanceof Error ? thrown.message : String(thrown) };
  }
  self.postMessage(response);
});
