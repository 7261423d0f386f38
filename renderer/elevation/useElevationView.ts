import { type RefObject, useCallback, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Drawing } from '../../src/issue/drawing/drawing.ts';
import { ratioForHeight, settleDrawing } from '../../src/issue/drawing/settleDrawing.ts';
import type { SettledDrawing } from '../../src/issue/drawing/settledDrawing.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { pxPerPaperMm } from './pxPerPaperMm.ts';
import type { SizePx } from './useSize.ts';

/** The largest scale, 1 : 5: details are drawn no finer than that. */
const closestRatio = 5;
const zoomStep = 1.25;

/** A drawing at the scale at which it is shown, and how to change that. */
export interface ElevationView {
  readonly settled: SettledDrawing<PartName>;
  /** Larger by steps (negative: smaller), keeping what lies `atPx` from the left of the window still. */
  readonly zoomBy: (steps: number, atPx: number) => void;
  readonly showWholeHeight: () => void;
  readonly showWholeRun: () => void;
}

/** What must keep its place in the window when the scale changes. */
interface Held {
  readonly roomMm: number;
  readonly atPx: number;
  /** Of the drawing's height, the share at the window's middle. */
  readonly heightShare: number;
}

/** The ratio at which a whole run fits a width, or the ratio at which it fits the height, whichever is smaller drawn. */
const ratioForWidth = (drawing: Drawing<PartName>, widthMm: number, natural: number): number => {
  const roomMm = drawing.rightMm - drawing.leftMm;
  let ratio = natural;
  // What texts take at the ends depends a little on the ratio; a few rounds settle it.
  for (let round = 0; round < 4; round += 1) {
    const { bounds, levels } = settleDrawing(drawing, ratio);
    const forText = bounds.right - bounds.left + levels.widthMm - roomMm / ratio;
    ratio = Math.max(natural, roomMm / Math.max(10, widthMm - forText - 1));
  }
  return ratio;
};

/** Shows a drawing as high as the window, until told otherwise. */
export const useElevationView = (
  drawing: Drawing<PartName>,
  window: SizePx,
  scroller: RefObject<HTMLElement | null>,
): ElevationView => {
  const heightMm = Math.max(20, window.heightPx / pxPerPaperMm);
  const natural = useMemo(() => ratioForHeight(drawing, heightMm, closestRatio), [drawing, heightMm]);
  const [chosen, setChosen] = useState<number | null>(null);
  const ratio = chosen ?? natural;
  const settled = useMemo(() => settleDrawing(drawing, ratio), [drawing, ratio]);
  const held = useRef<Held | null>(null);

  const hold = useCallback(
    (atPx: number) => {
      const { current } = scroller;
      if (!current) return;
      const paperMm =
        (current.scrollLeft + atPx) / pxPerPaperMm - settled.levels.widthMm + settled.bounds.left;
      const heightShare = (current.scrollTop + current.clientHeight / 2) / Math.max(1, current.scrollHeight);
      held.current = { roomMm: paperMm * settled.ratio, atPx, heightShare };
    },
    [scroller, settled],
  );

  useLayoutEffect(() => {
    const { current } = scroller;
    const keep = held.current;
    held.current = null;
    if (!current || !keep) return;
    const paperMm = keep.roomMm / settled.ratio - settled.bounds.left + settled.levels.widthMm;
    current.scrollLeft = paperMm * pxPerPaperMm - keep.atPx;
    current.scrollTop = keep.heightShare * current.scrollHeight - current.clientHeight / 2;
  }, [settled, scroller]);

  const wholeRun = useMemo(
    () => ratioForWidth(drawing, window.widthPx / pxPerPaperMm, natural),
    [drawing, window.widthPx, natural],
  );
  return {
    settled,
    zoomBy: (steps, atPx) => {
      hold(atPx);
      setChosen(Math.min(wholeRun * zoomStep, Math.max(closestRatio, ratio / zoomStep ** steps)));
    },
    showWholeHeight: () => {
      hold(window.widthPx / 2);
      setChosen(null);
    },
    showWholeRun: () => setChosen(wholeRun > natural ? wholeRun : null),
  };
};
