import type { Patch } from './patch.ts';

/** One step that can be undone or redone, with the words for it. */
export interface HistoryStep {
  readonly label: string;
  readonly patch: Patch;
}

/** Undo is data: what was done, last one last, and what was undone, next to redo last. */
export interface History {
  readonly done: readonly HistoryStep[];
  readonly undone: readonly HistoryStep[];
}

export const emptyHistory: History = { done: [], undone: [] };

/** A new step was done: it can be undone, and what had been undone is forgotten. */
export const recordStep = (history: History, step: HistoryStep): History => ({
  done: [...history.done, step],
  undone: [],
});

/** The history after undoing its last step, and that step; null when there is nothing to undo. */
export const takeBack = (
  history: History,
): { readonly history: History; readonly step: HistoryStep } | null => {
  const step = history.done.at(-1);
  if (!step) return null;
  return { history: { done: history.done.slice(0, -1), undone: [...history.undone, step] }, step };
};

/** The history after redoing what was undone last, and that step; null when there is nothing to redo. */
export const doAgain = (
  history: History,
): { readonly history: History; readonly step: HistoryStep } | null => {
  const step = history.undone.at(-1);
  if (!step) return null;
  return { history: { done: [...history.done, step], undone: history.undone.slice(0, -1) }, step };
};
