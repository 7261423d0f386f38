import type { FitRequest, FitResponse } from './fitWorker.ts';

/** What answers requests one at a time, such as a worker, and can be ended while it does. */
export interface FitEngine {
  readonly ask: (request: FitRequest) => void;
  readonly end: () => void;
}

/** A request and whose it is: a newer one of the same owner takes the place of one that still waits. */
export interface WantedFit {
  readonly owner: string;
  readonly request: FitRequest;
}

export interface FitQueue {
  /** Says all that is wanted now. What is no longer wanted is dropped, also while it is being worked on. */
  readonly want: (wanted: readonly WantedFit[]) => void;
  readonly end: () => void;
}

/**
 * Asks for fits one at a time, those of the owner that changed last first. Stale work is given up: at once while it
 * waits, and after `patienceMs` while it is being solved, because starting an engine anew takes about as long.
 */
export const createFitQueue = (given: {
  readonly start: (onAnswer: (response: FitResponse) => void) => FitEngine;
  readonly onAnswer: (response: FitResponse) => void;
  readonly patienceMs: number;
  /** Calls back after a while, unless the function that it gives is called first. */
  readonly later: (delayMs: number, act: () => void) => () => void;
}): FitQueue => {
  let engine: FitEngine | null = null;
  let inHand: string | null = null;
  /** The newest last. */
  let waiting: readonly WantedFit[] = [];
  let stopWaiting: (() => void) | null = null;

  const isWanted = (key: string) => waiting.some(({ request }) => request.key === key);

  const next = () => {
    if (inHand !== null) return;
    const wanted = waiting.at(-1);
    if (!wanted) return;
    inHand = wanted.request.key;
    engine ??= given.start((response) => {
      if (response.key !== inHand) return;
      inHand = null;
      stopWaiting?.();
      stopWaiting = null;
      waiting = waiting.filter(({ request }) => request.key !== response.key);
      given.onAnswer(response);
      next();
    });
    engine.ask(wanted.request);
  };

  const giveUpStale = () => {
    stopWaiting = null;
    if (inHand === null || isWanted(inHand) || waiting.length === 0) return;
    engine?.end();
    engine = null;
    inHand = null;
    next();
  };

  return {
    want(wanted) {
      const before = waiting;
      const isNew = ({ owner, request }: WantedFit) =>
        !before.some((one) => one.owner === owner && one.request.key === request.key);
      const byAge = (one: WantedFit) => before.findIndex(({ request }) => request.key === one.request.key);
      waiting = [
        ...wanted.filter((one) => !isNew(one)).sort((one, other) => byAge(one) - byAge(other)),
        ...wanted.filter(isNew),
      ];
      if (inHand !== null && !isWanted(inHand) && waiting.length > 0)
        stopWaiting ??= given.later(given.patienceMs, giveUpStale);
      next();
    },
    end() {
      stopWaiting?.();
      engine?.end();
      engine = null;
      inHand = null;
      waiting = [];
    },
  };
};
