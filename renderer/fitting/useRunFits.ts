import { useEffect, useMemo, useRef, useState } from 'react';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { FitAlternative, FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { type Posed, poseProblem } from '../../src/fitting/poseProblem.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { FitRequest, FitResponse } from './fitWorker.ts';

/** How the fit of one run stands. */
export type RunFit =
  | { readonly status: 'refused'; readonly code: string; readonly message: string }
  | { readonly status: 'fitting'; readonly problem: FitProblem; readonly canonical: string }
  | {
      readonly status: 'ready';
      readonly problem: FitProblem;
      readonly canonical: string;
      readonly answer: FitAnswer;
      /** The kept fit, and whether it still answers the run as it is traced now. */
      readonly kept: { readonly alternative: FitAlternative; readonly isCurrent: boolean } | null;
    }
  | { readonly status: 'failed'; readonly message: string };

/** How many fits stay at hand, so that undoing shows the earlier one at once. */
const rememberedMost = 200;
const alternativesShown = 4;

/** The live fit of every run, computed in a worker and remembered by its problem. */
export const useRunFits = (
  document: ProjectDocument,
  range: StockRange | null,
): ReadonlyMap<RunId, RunFit> => {
  const worker = useRef<Worker | null>(null);
  const asked = useRef(new Set<string>());
  const [answers, setAnswers] = useState<ReadonlyMap<string, FitResponse>>(new Map());

  useEffect(() => {
    const started = new Worker(new URL('./fitWorker.ts', import.meta.url), { type: 'module' });
    started.addEventListener('message', ({ data }: MessageEvent<FitResponse>) => {
      asked.current.delete(data.key);
      setAnswers((before) => {
        const next = new Map(before);
        next.delete(data.key);
        next.set(data.key, data);
        const oldest = next.keys().next();
        if (next.size > rememberedMost && !oldest.done) next.delete(oldest.value);
        return next;
      });
    });
    worker.current = started;
    return () => {
      started.terminate();
      worker.current = null;
      asked.current.clear();
    };
  }, []);

  const { scaleInputs, runInputs } = {
    scaleInputs: [document.sheets, document.references],
    runInputs: [document.runs, document.zones, document.stations, document.runIds],
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
  }, [range, ...scaleInputs, ...runInputs]);

  useEffect(() => {
    for (const { posed: one, canonical } of posed.values()) {
      if (!one.ok || answers.has(canonical) || asked.current.has(canonical)) continue;
      asked.current.add(canonical);
      const request: FitRequest = {
        key: canonical,
        problem: one.problem,
        order: one.order,
        alternatives: alternativesShown,
      };
      worker.current?.postMessage(request);
    }
  }, [posed, answers]);

  return useMemo(() => {
    const fits = new Map<RunId, RunFit>();
    for (const [runId, { posed: one, canonical }] of posed) {
      if (!one.ok) {
        fits.set(runId, { status: 'refused', code: one.code, message: one.message });
        continue;
      }
      const answer = answers.get(canonical);
      if (!answer) fits.set(runId, { status: 'fitting', problem: one.problem, canonical });
      else if (!answer.ok) fits.set(runId, { status: 'failed', message: answer.message });
      else {
        const kept = document.keptFits[runId];
        fits.set(runId, {
          status: 'ready',
          problem: one.problem,
          canonical,
          answer: answer.answer,
          kept: kept
            ? {
                alternative: JSON.parse(kept.alternative) as FitAlternative,
                isCurrent: kept.problem === canonical,
              }
            : null,
        });
      }
    }
    return fits;
  }, [posed, answers, document.keptFits]);
};
