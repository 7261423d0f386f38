import { type RefObject, useCallback, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Drawing } from '../../src/issue/drawing/drawing.ts';
import { ratioForHeight, settleDrawing } from '../../src/issue/drawing/settleDrawing.ts';
import type { SettledDrawing } from '../../src/issue/drawing/settledDrawing.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { pxPerPaperMm } from './pxPerPaperMm.ts';

const closest = 5;
const step = 1.25;

/** Ratio (room mm per paper mm) at which a drawing is shown, and how to change it. */
export interface ElevationView {
  readonly settled: SettledDrawing<PartName>;
  readonly isWholeHeight: boolean;
  /** Larger by a step (1) or smaller (-1), keeping the place `atPx` from the left of the window still. */
  readonly zoomBy: (steps: number, atPx: number) => void;
  readonly showWholeHeight: () => void;
  readonly showWholeRun: () => void;
}

const widthOf = ({ bounds }: SettledDrawing): number => bounds.right - bounds.left;

export const useElevationView = (
  drawing: Drawing<PartName>,
  window: { readonly widthPx: number; readonly heightPx: number },
  scroller: RefObject<HTMLElement | null>,
): ElevationView => {
  const heightMm = Math.max(20, window.heightPx / pxPerPaperMm);
  const natural = useMemo(() => ratioForHeight(drawing, heightMm), [drawing, heightMm]);
  const [chosen, setChosen] = useState<number | null>(null);
  const ratio = chosen ?? natural;
  const settled = useMemo(() => settleDrawing(drawing, ratio), [drawing, ratio]);
  /** What must stay under the pointer when the ratio changes: room mm, and px from the window's left. */
  const held = useRef<{ readonly roomMm: number; readonly atPx: number } | null>(null);

  const hold = useCallback(
    (atPx: number) => {
      const at = scroller.current;
      if (!at) return;
      const paperMm = (at.scrollLeft + atPx) / pxPerPaperMm + settled.bounds.left;
      held.current = { roomMm: paperMm * settled.ratio, atPx };
    },
    [scroller, settled],
  );

  useLayoutEffect(() => {
    const at = scroller.current;
    const { current } = held;
    held.current = null;
    if (!at || !current) return;
    const paperMm = current.roomMm / settled.ratio - settled.bounds.left;
    at.scrollLeft = paperMm * pxPerPaperMm - current.atPx;
  }, [settled, scroller]);

  const smallest = useMemo(() => {
    const roomMm = drawing.rightMm - drawing.leftMm;
    return Math.max(natural, (roomMm * pxPerPaperMm) / Math.max(120, window.widthPx * 0.6));
  }, [drawing, natural, window.widthPx]);

  return {
    settled,
    isWholeHeight: chosen === null,
    zoomBy: (steps, atPx) => {
      hold(atPx);
      setChosen(Math.min(smallest, Math.max(closest, ratio / step ** steps)));
    },
    showWholeHeight: () => {
      hold(window.widthPx / 2);
      setChosen(null);
    },
    showWholeRun: () => {
      let next = natural;
      for (let round = 0; round < 4; round += 1) {
        const at = settleDrawing(drawing, next);
        const roomMm = drawing.rightMm - drawing.leftMm;
        const textMm = widthOf(at) - roomMm / next;
        next = Math.max(natural, roomMm / Math.max(10, window.widthPx / pxPerPaperMm - textMm - 1));
      }
      setChosen(next > natural ? next : null);
    },
  };
};
