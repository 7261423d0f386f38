import { type ReactNode, useEffect, useRef } from 'react';
import type { Board } from './board.ts';
import './Overview.css';
import { readMarkPalette } from './markPalette.ts';
import { onThemeChange } from './onThemeChange.ts';
import { screenPoint } from './screenPoint.ts';
import { shownSizePoints } from './sheetFrame.ts';
import { drawPictures } from './sheetPicture.ts';
import {
  centredOn,
  isWholeSheet,
  keptInSight,
  toPaper,
  type ViewTransform,
  wholeSheet,
} from './viewTransform.ts';

export interface OverviewProps {
  readonly board: Board;
  /** Longer side of the picture, in CSS pixels. Default 180. */
  readonly longestPx?: number | undefined;
  /** Whether to show nothing while the whole sheet is in view anyway. Default true. */
  readonly isHiddenWhenWhole?: boolean | undefined;
}

/**
 * The whole sheet, small, with the visible part outlined; press or drag to look elsewhere. It repeats what the board's
 * keys do, so it is left out of the tab order. It may stand inside `SheetView` or anywhere else.
 */
export function Overview({ board, longestPx = 180, isHiddenWhenWhole = true }: OverviewProps): ReactNode {
  const root = useRef<HTMLDivElement>(null);
  const picture = useRef<HTMLCanvasElement>(null);
  const outline = useRef<HTMLDivElement>(null);

  useEffect(() => {
    const element = root.current;
    const canvas = picture.current;
    const frame = outline.current;
    const context = canvas?.getContext('2d', { alpha: false });
    if (!element || !canvas || !frame || !context) return;

    const placeOutline = (): void => {
      const view = board.view.get();
      element.hidden = view === null || (isHiddenWhenWhole && isWholeSheet(view));
      if (view === null) return;
      const small = smallView(view, longestPx);
      element.style.width = `${small.widthPx}px`;
      element.style.height = `${small.heightPx}px`;
      const ratio = small.pxPerPoint / view.pxPerPoint;
      const width = Math.max(4, view.widthPx * ratio);
      const height = Math.max(4, view.heightPx * ratio);
      frame.style.transform = `translate(${-view.originX * ratio}px, ${-view.originY * ratio}px)`;
      frame.style.width = `${width}px`;
      frame.style.height = `${height}px`;
    };
    const drawSheet = (): void => {
      const view = board.view.get();
      const sheet = board.picture.get();
      if (view === null || sheet === null) return;
      const small = smallView(view, longestPx);
      const ratio = devicePixelRatio;
      canvas.width = Math.round(small.widthPx * ratio);
      canvas.height = Math.round(small.heightPx * ratio);
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      context.imageSmoothingQuality = 'high';
      drawPictures(context, [sheet.coarse], small, readMarkPalette(canvas).paper);
    };

    let drawnCanvas: HTMLCanvasElement | null = null;
    const outlineLayer = board.frames.addLayer(30, placeOutline);
    const sheetLayer = board.frames.addLayer(31, drawSheet);
    outlineLayer.invalidate();
    sheetLayer.invalidate();
    const stops = [
      board.view.subscribe(outlineLayer.invalidate),
      board.picture.subscribe(() => {
        // A new detail changes nothing at this size; a coarse picture still growing does.
        const coarse = board.picture.get()?.coarse.canvas ?? null;
        if (coarse !== drawnCanvas || board.picture.get()?.detail === null) sheetLayer.invalidate();
        drawnCanvas = coarse;
      }),
      onThemeChange(sheetLayer.invalidate),
    ];

    const look = (event: PointerEvent): void => {
      const view = board.view.get();
      if (view === null || (event.type === 'pointermove' && !element.hasPointerCapture(event.pointerId)))
        return;
      if (event.type === 'pointerdown') element.setPointerCapture(event.pointerId);
      event.preventDefault();
      const box = element.getBoundingClientRect();
      const at = screenPoint(event.clientX - box.left, event.clientY - box.top);
      board.view.set(keptInSight(centredOn(view, toPaper(smallView(view, longestPx), at))));
    };
    element.addEventListener('pointerdown', look);
    element.addEventListener('pointermove', look);
    return () => {
      element.removeEventListener('pointerdown', look);
      element.removeEventListener('pointermove', look);
      for (const stop of stops) stop();
      outlineLayer.remove();
      sheetLayer.remove();
    };
  }, [board, longestPx, isHiddenWhenWhole]);

  return (
    <div ref={root} className="overview" data-board-control aria-hidden="true">
      <canvas ref={picture} className="overview-picture" />
      <div ref={outline} className="overview-outline" />
    </div>
  );
}

function smallView(view: ViewTransform, longestPx: number): ViewTransform {
  const shown = shownSizePoints(view.frame);
  const scale = longestPx / Math.max(shown.width, shown.height);
  return wholeSheet(view.frame, { widthPx: shown.width * scale, heightPx: shown.height * scale }, 0);
}
