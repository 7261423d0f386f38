import { type RefObject, useEffect } from 'react';
import type { SettledDrawing } from '../../src/issue/drawing/settledDrawing.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { pxPerPaperMm } from './pxPerPaperMm.ts';

/** Kept clear beside a part that is brought into view, CSS px. */
const clearPx = 40;

/** Brings a part that lights up elsewhere (on the plan, in the schedule) into view; what is under the pointer stays. */
export const useReveal = (
  scroller: RefObject<HTMLElement | null>,
  settled: SettledDrawing<PartName>,
  highlighted: PartName | null,
): void => {
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another part is brought into view, not another size
  useEffect(() => {
    const { current } = scroller;
    const box = settled.parts.find(({ part }) => part === highlighted)?.box;
    if (!current || !box || current.matches(':hover') || current.contains(document.activeElement)) return;
    const gutterPx = settled.levels.widthMm * pxPerPaperMm;
    const seenPx = current.clientWidth - gutterPx;
    const leftPx = (box.left - settled.bounds.left) * pxPerPaperMm - clearPx;
    const rightPx = (box.right - settled.bounds.left) * pxPerPaperMm + clearPx;
    if (leftPx >= current.scrollLeft && rightPx <= current.scrollLeft + seenPx) return;
    const isStill = matchMedia('(prefers-reduced-motion: reduce)').matches;
    current.scrollTo({
      left: Math.max(0, (leftPx + rightPx - seenPx) / 2),
      behavior: isStill ? 'instant' : 'smooth',
    });
  }, [highlighted]);
};
