import type { ProjectEvent } from '../app/ports.ts';
import type { History, HistoryStep } from '../document/history.ts';

/**
 * Undo and redo steps as they stood after the last of a project's events, oldest event first. A command forgets what
 * had been undone. Throws when an undo or a redo has no step to take, which no accepted event can lead to.
 */
export const rebuildHistory = (events: Iterable<Pick<ProjectEvent, 'kind' | 'label' | 'patch'>>): History => {
  const done: HistoryStep[] = [];
  let undone: HistoryStep[] = [];
  for (const { kind, label, patch } of events) {
    if (kind === 'command') {
      done.push({ label, patch });
      undone = [];
      continue;
    }
    const [from, to] = kind === 'undo' ? [done, undone] : [undone, done];
    const step = from.pop();
    if (!step) throw new Error(`An event of kind "${kind}" has no step to take.`);
    to.push(step);
  }
  return { done, undone };
};
