import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist';
import { type ReactNode, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Board } from './board.ts';
import { attachBoardGestures, type BoardPointer } from './boardGestures.ts';
import { onThemeChange } from './onThemeChange.ts';
import { paperTint } from './paperTint.ts';
import './SheetView.css';
import { isSameSwitches, type LayerSwitches } from './layerConfig.ts';
import { isSameFrame, sheetFrameOf, shownSizePoints } from './sheetFrame.ts';
import { createSheetPainter, type SheetDrawingState, type SheetPainter } from './sheetPainter.ts';
import { wholeSheet, withSize } from './viewTransform.ts';
import type { WheelMode } from './wheelIntent.ts';

export interface SheetViewProps {
  readonly board: Board;
  readonly page: PDFPageProxy;
  /** The page's document; needed only to hide or show layers. */
  readonly pdf?: PDFDocumentProxy | undefined;
  /** Layers switched on or off, by id or name; all others are drawn as the file has them. */
  readonly layers?: LayerSwitches | undefined;
  /** What dragging with the main button does. `tool`: it goes to `onPointer`. Default `pan`. */
  readonly leftDrag?: 'pan' | 'tool' | undefined;
  /** Default `auto`: a mouse wheel zooms, two fingers on a trackpad pan. */
  readonly wheelMode?: WheelMode | undefined;
  /** CSS cursor while nothing is being panned. */
  readonly cursor?: string | undefined;
  readonly onPointer?: ((pointer: BoardPointer) => void) | undefined;
  /** Heard before the view's own keys; `preventDefault()` keeps a key from moving the view. */
  readonly onKeyDown?: ((event: React.KeyboardEvent<HTMLElement>) => void) | undefined;
  readonly onDrawingState?: ((state: SheetDrawingState) => void) | undefined;
  /** What assistive technology calls the board. */
  readonly label?: string | undefined;
  /** Layers over the sheet: `OverlayLayer`, `Magnifier`, controls. */
  readonly children?: ReactNode;
}

const NO_SWITCHES: LayerSwitches = {};
const nothing = (): void => undefined;

/**
 * One sheet filling its container: coarse at once, then as sharp as the screen wherever one looks, moved by wheel,
 * trackpad, touch, drag and keys. Knows nothing of projects.
 */
export function SheetView(props: SheetViewProps): ReactNode {
  const { board, page, pdf = null, layers = NO_SWITCHES } = props;
  const root = useRef<HTMLElement>(null);
  const plane = useRef<HTMLDivElement>(null);
  const paper = useRef<HTMLDivElement>(null);
  const tint = useRef<HTMLDivElement>(null);
  const painter = useRef<SheetPainter | null>(null);
  const drawnLayers = useRef(layers);
  const [state, setState] = useState<SheetDrawingState>({ status: 'drawing' });
  const frame = useMemo(() => sheetFrameOf(page), [page]);
  const latest = useRef(props);
  useLayoutEffect(() => {
    latest.current = props;
  });

  // Lay the sheet out in the box, now and whenever the box changes its size.
  useLayoutEffect(() => {
    const element = root.current;
    if (element === null) return;
    const layOut = (): void => {
      const size = { widthPx: element.clientWidth, heightPx: element.clientHeight };
      if (size.widthPx === 0 || size.heightPx === 0) return;
      const view = board.view.get();
      board.view.set(view && isSameFrame(view.frame, frame) ? withSize(view, size) : wholeSheet(frame, size));
    };
    layOut();
    const observer = new ResizeObserver(layOut);
    observer.observe(element);
    return () => observer.disconnect();
  }, [board, frame]);

  useEffect(() => {
    const element = plane.current;
    const sheet = paper.current;
    const colour = tint.current;
    if (element === null || sheet === null || colour === null) return;
    const shown = shownSizePoints(frame);
    const layer = board.frames.addLayer(0, () => {
      const view = board.view.get();
      if (view !== null) {
        for (const { style } of [sheet, colour]) {
          style.transform = `translate(${view.originX}px, ${view.originY}px)`;
          style.width = `${shown.width * view.pxPerPoint}px`;
          style.height = `${shown.height * view.pxPerPoint}px`;
        }
      }
      painter.current?.update();
    });
    const report = (next: SheetDrawingState): void => {
      setState((current) => (current.status === next.status ? current : next));
      latest.current.onDrawingState?.(next);
    };
    painter.current = createSheetPainter({
      page,
      pdf,
      board,
      plane: element,
      layers: drawnLayers.current,
      onState: report,
      requestUpdate: layer.invalidate,
    });
    const showTint = (): void => {
      const veil = paperTint(getComputedStyle(sheet).backgroundColor);
      colour.hidden = veil === null;
      colour.style.background = veil ?? '';
    };
    showTint();
    const stopTheme = onThemeChange(showTint);
    layer.invalidate();
    const unsubscribe = board.view.subscribe(layer.invalidate);
    const forgetRatio = onDevicePixelRatioChange(layer.invalidate);
    return () => {
      forgetRatio();
      stopTheme();
      unsubscribe();
      layer.remove();
      painter.current?.destroy();
      painter.current = null;
    };
  }, [board, page, pdf, frame]);

  useEffect(() => {
    if (isSameSwitches(drawnLayers.current, layers)) return;
    drawnLayers.current = layers;
    painter.current?.switchLayers(layers);
  }, [layers]);

  useEffect(() => {
    const element = root.current;
    if (element === null) return;
    return attachBoardGestures(element, board, {
      leftDrag: () => latest.current.leftDrag ?? 'pan',
      wheelMode: () => latest.current.wheelMode ?? 'auto',
      onPointer: (pointer) => (latest.current.onPointer ?? nothing)(pointer),
      onGrab: (isGrabbed) => {
        if (isGrabbed) element.dataset['panning'] = 'now';
        else delete element.dataset['panning'];
      },
    });
  }, [board]);

  return (
    <section
      ref={root}
      className="sheet-view"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the board pans, zooms and is drawn on by keys
      tabIndex={0}
      aria-label={props.label ?? 'Sheet'}
      aria-busy={state.status === 'drawing'}
      data-drawing={state.status}
      style={
        { '--sheet-cursor': props.cursor ?? (props.leftDrag === 'tool' ? 'crosshair' : 'grab') } as object
      }
      // In the capturing phase: the view's own listener sits on this very element and would come first otherwise.
      onKeyDownCapture={(event) => {
        if (event.target === event.currentTarget) props.onKeyDown?.(event);
      }}
    >
      <div className="sheet-view-sheet">
        <div ref={paper} className="sheet-view-paper" />
        <div ref={plane} className="sheet-view-plane" />
        <div ref={tint} className="sheet-view-tint" hidden />
      </div>
      {state.status === 'failed' && (
        <p className="sheet-view-refusal" role="alert">
          {state.message}
        </p>
      )}
      {props.children}
    </section>
  );
}

/** Calls back when the window moves to a screen of another density or the browser's own zoom changes. */
function onDevicePixelRatioChange(callback: () => void): () => void {
  let stop = nothing;
  const watch = (): void => {
    const query = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
    const heard = (): void => {
      callback();
      watch();
    };
    query.addEventListener('change', heard, { once: true });
    stop = () => query.removeEventListener('change', heard);
  };
  watch();
  return () => stop();
}
