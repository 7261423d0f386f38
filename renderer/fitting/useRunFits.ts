import { useEffect, useMemo, useRef, useState } from 'react';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { FitAlternative, FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { type Posed, poseProblem } from '../../src/fitting/poseProblem.ts';
import { solverVersion } from '../../src/fitting/problemHash.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { createFitQueue, type FitQueue, type WantedFit } from './fitQueue.ts';
import type { FitRequest, FitResponse } from './fitWorker.ts';
import { type KeptRunFit, keptRunFit } from './keptRunFit.ts';

export interface ReadyRunFit {
  readonly status: 'ready';
  readonly problem: FitProblem;
  readonly canonical: string;
  readonly answer: FitAnswer;
  readonly kept: KeptRunFit | null;
  /** False while only the best fit is there and the alternatives are still being solved. */
  readonly hasAlternatives: boolean;
  /** Looked at before it is kept: drawn in place of the kept or best one. */
  readonly tried?: FitAlternative;
}

/** How the fit of one run stands. */
export type RunFit =
  | { readonly status: 'refused'; readonly code: string; readonly message: string }
  | {
      readonly status: 'fitting';
      readonly problem: FitProblem;
      readonly canonical: string;
      /** The last answer, of a run with as many straights: drawn until the new one is there. */
      readonly before: FitAlternative | null;
    }
  | ReadyRunFit
  | { readonly status: 'failed'; readonly message: string };

/** How many answers stay at hand, so that undoing shows the earlier one at once. */
const rememberedMost = 300;
const alternativesShown = 5;
/** How long a stale problem may go on being solved before the worker is started anew. */
const patienceMs = 120;

const startWorker = (onAnswer: (response: FitResponse) => void) => {
  const worker = new Worker(new URL('./fitWorker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FitResponse>) => onAnswer(data));
  return {
    ask: (request: FitRequest) => worker.postMessage(request),
    end: () => worker.terminate(),
  };
};

const later = (delayMs: number, act: () => void) => {
  const timer = window.setTimeout(act, delayMs);
  return () => window.clearTimeout(timer);
};

/** The best fit alone comes first, the alternatives after it; each in the words of one unit. */
/** Answers are kept by all that they depend on: alternatives also by what made to measure costs. */
const wordedKey = (posed: Extract<Posed, { readonly ok: true }>, canonical: string): string =>
  `${JSON.stringify(posed.problem.madeToMeasure ?? null)} ${canonical}`;
const leadKey = (unit: DisplayUnit, canonical: string) => `lead ${unit} ${canonical}`;
const wholeKey = (unit: DisplayUnit, canonical: string) => `whole ${unit} ${canonical}`;

/**
 * The live fit of every run, computed in a worker and remembered by its problem. While the document is a preview of a
 * drag (`isLive`), only the best fit of each is solved; the alternatives follow when it is let go.
 */
export const useRunFits = (
  document: ProjectDocument,
  range: StockRange | null,
  isLive = false,
  unit: DisplayUnit = 'mm',
): ReadonlyMap<RunId, RunFit> => {
  const queue = useRef<FitQueue | null>(null);
  const [answers, setAnswers] = useState<ReadonlyMap<string, FitResponse>>(new Map());

  useEffect(() => {
    const started = createFitQueue({
      start: startWorker,
      later,
      patienceMs,
      onAnswer: (response) =>
        setAnswers((before) => {
          const next = new Map(before);
          next.delete(response.key);
          next.set(response.key, response);
          const oldest = next.keys().next();
          if (next.size > rememberedMost && !oldest.done) next.delete(oldest.value);
          return next;
        }),
    });
    queue.current = started;
    return () => {
      started.end();
      queue.current = null;
    };
  }, []);

  const { scaleInputs, runInputs, limitInputs } = {
    scaleInputs: [document.sheets, document.references],
    runInputs: [document.runs, document.zones, document.stations, document.runIds],
    limitInputs: [document.limitedRunIds, document.waysIn, document.chosenWayInId],
  };
  // Posing is cheap but not free: only what a problem is made of poses it again.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the lists above are the parts of the document it reads
  const posed = useMemo(() => {
    const problems = new Map<RunId, { readonly posed: Posed; readonly canonical: string }>();
    if (!range) return problems;
    for (const runId of document.runIds) {
      const one = poseProblem(document, runId, range);
      problems.set(runId, { posed: one, canonical: one.ok ? one.key : '' });
    }
    return problems;
  }, [range, ...scaleInputs, ...runInputs, ...limitInputs]);

  useEffect(() => {
    const wanted: WantedFit[] = [];
    const want = (owner: RunId, key: string, alternatives: number, one: Extract<Posed, { ok: true }>) => {
      if (!answers.has(key))
        wanted.push({ owner, request: { key, problem: one.problem, order: one.order, alternatives, unit } });
    };
    for (const [runId, { posed: one, canonical }] of posed) {
      if (!one.ok || answers.has(wholeKey(unit, wordedKey(one, canonical)))) continue;
      // Once the best fit is there, what is left to ask for is the rest.
      if (!answers.has(leadKey(unit, wordedKey(one, canonical))))
        want(runId, leadKey(unit, wordedKey(one, canonical)), 1, one);
      else if (!isLive) want(runId, wholeKey(unit, wordedKey(one, canonical)), alternativesShown, one);
    }
    queue.current?.want(wanted);
  }, [posed, answers, isLive, unit]);

  /** The last answer of each run, to draw while the next is on its way. */
  const lastDrawn = useRef(new Map<RunId, { readonly straights: number; readonly best: FitAlternative }>());

  return useMemo(() => {
    const fits = new Map<RunId, RunFit>();
    for (const [runId, { posed: one, canonical }] of posed) {
      if (!one.ok) {
        fits.set(runId, { status: 'refused', code: one.code, message: one.message });
        continue;
      }
      const whole = answers.get(wholeKey(unit, wordedKey(one, canonical)));
      const response = whole ?? answers.get(leadKey(unit, wordedKey(one, canonical)));
      const straights = one.problem.straights.length;
      if (!response) {
        const last = lastDrawn.current.get(runId);
        const before = last?.straights === straights ? last.best : null;
        fits.set(runId, { status: 'fitting', problem: one.problem, canonical, before });
      } else if (!response.ok) fits.set(runId, { status: 'failed', message: response.message });
      else {
        const { answer } = response;
        const [best] = answer.alternatives;
        if (best) lastDrawn.current.set(runId, { straights, best });
        else lastDrawn.current.delete(runId);
        const kept = document.keptFits[runId];
        fits.set(runId, {
          status: 'ready',
          problem: one.problem,
          canonical,
          answer,
          hasAlternatives: whole !== undefined,
          kept: kept ? keptRunFit(kept, { problemKey: canonical, answer, solverVersion }) : null,
        });
      }
    }
    return fits;
  }, [posed, answers, document.keptFits, unit]);
};
