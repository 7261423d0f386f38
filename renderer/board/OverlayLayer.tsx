import { StaticCanvas } from 'fabric';
import { type ReactNode, useEffect, useLayoutEffect, useRef } from 'react';
import type { Board } from './board.ts';
import type { DisplayList, LabelItem } from './displayList.ts';
import { inDrawingOrder } from './displayOrder.ts';
import { FabricDisplayObject, type Painting } from './fabricDisplayObject.ts';
import { seenExtent } from './itemExtent.ts';
import type { LabelBox } from './labelBox.ts';
import { type LabelLayout, layOutLabels } from './labelLayout.ts';
import { type MarkPalette, readMarkPalette } from './markPalette.ts';
import { onThemeChange } from './onThemeChange.ts';
import './OverlayLayer.css';
import { createPaintCache, emptyPaintCache } from './paintCache.ts';
import { labelLengthPx } from './paintLabel.ts';
import { pxPerPaperUnit, type ViewTransform } from './viewTransform.ts';

export interface OverlayLayerProps {
  readonly board: Board;
  /** What to draw. Items that keep their id keep their fabric object. */
  readonly items: DisplayList;
  /** Layers with a lower order are drawn first within a frame. Default 10. */
  readonly order?: number | undefined;
}

/** Text and emphasis reach this far beyond an item's points, in CSS pixels; what lies further out is not painted. */
const REACH_PX = 320;

interface Layer {
  readonly show: (items: DisplayList) => void;
  readonly destroy: () => void;
}

/**
 * A transparent layer over the sheet, in register with it at every frame. fabric holds and draws the objects; they are a
 * projection of the display list and take no events. Put it inside `SheetView`.
 */
export function OverlayLayer({ board, items, order = 10 }: OverlayLayerProps): ReactNode {
  const holder = useRef<HTMLDivElement>(null);
  const layer = useRef<Layer | null>(null);
  const latest = useRef(items);

  useEffect(() => {
    const element = holder.current;
    if (element === null) return;
    layer.current = createLayer(element, board, order);
    layer.current.show(latest.current);
    return () => {
      layer.current?.destroy();
      layer.current = null;
    };
  }, [board, order]);

  useLayoutEffect(() => {
    latest.current = items;
    layer.current?.show(items);
  }, [items]);

  return <div ref={holder} className="overlay-layer" aria-hidden="true" />;
}

/** A layout of texts, which holds until the items, the zoom, or the texts of layers below change. */
interface KnownLayout {
  readonly pxPerUnit: number;
  readonly rotationDeg: number;
  readonly taken: readonly LabelBox[];
  readonly moves: LabelLayout['moves'];
}

function createLayer(holder: HTMLElement, board: Board, order: number): Layer {
  const element = document.createElement('canvas');
  holder.append(element);
  const canvas = new StaticCanvas(element, {
    renderOnAddRemove: false,
    skipOffscreen: false,
    enableRetinaScaling: true,
    width: 1,
    height: 1,
  });
  const cache = createPaintCache();
  let palette: MarkPalette = readMarkPalette(holder);
  let painting: Painting | null = null;
  let objects = new Map<string, FabricDisplayObject>();
  let drawnRatio = 0;
  let shown: DisplayList = [];
  let layout: KnownLayout | null = null;

  const layOut = (view: ViewTransform, context: CanvasRenderingContext2D): LabelLayout['moves'] => {
    const taken = [...board.texts].flatMap(([other, boxes]) => (other < order ? boxes : []));
    const isKnown =
      layout !== null &&
      layout.pxPerUnit === pxPerPaperUnit(view) &&
      layout.rotationDeg === view.frame.rotationDeg &&
      layout.taken.length === taken.length &&
      layout.taken.every((box, place) => box === taken[place]);
    if (!isKnown || layout === null) {
      const lengthPx = (item: LabelItem): number => labelLengthPx(context, cache, palette, item);
      const { moves, boxes } = layOutLabels(shown, view, { lengthPx, textScale: palette.textScale }, taken);
      layout = { pxPerUnit: pxPerPaperUnit(view), rotationDeg: view.frame.rotationDeg, taken, moves };
      board.texts.set(order, boxes);
    }
    return layout.moves;
  };

  const draw = (): void => {
    const view = board.view.get();
    if (view === null) return;
    const ratio = devicePixelRatio;
    if (canvas.width !== view.widthPx || canvas.height !== view.heightPx || drawnRatio !== ratio) {
      canvas.setDimensions({ width: view.widthPx, height: view.heightPx });
      drawnRatio = ratio;
    }
    const context = canvas.getContext();
    painting = {
      setting: { context, view, palette, cache, devicePixelRatio: ratio, moves: layOut(view, context) },
      seen: seenExtent(view, REACH_PX),
    };
    canvas.renderAll();
    painting = null;
  };

  const frame = board.frames.addLayer(order, draw);
  const stopView = board.view.subscribe(frame.invalidate);
  const stopTheme = onThemeChange(() => {
    palette = readMarkPalette(holder);
    emptyPaintCache(cache);
    layout = null;
    frame.invalidate();
  });

  return {
    show(items) {
      shown = items;
      layout = null;
      const next = new Map<string, FabricDisplayObject>();
      for (const item of inDrawingOrder(items)) {
        // Ids are unique by contract; an item that breaks it is still drawn.
        const key = next.has(item.id) ? `${item.id} ${next.size}` : item.id;
        const known = objects.get(key);
        known?.show(item);
        next.set(key, known ?? new FabricDisplayObject(item, () => painting));
      }
      arrange(canvas, [...next.values()], new Set(objects.values()));
      objects = next;
      frame.invalidate();
    },
    destroy() {
      stopTheme();
      stopView();
      frame.remove();
      board.texts.delete(order);
      void canvas.dispose().then(() => element.remove());
    },
  };
}

/** Makes `next` the canvas's objects, touching only what differs: pointing at a module must not rebuild a crowded board. */
function arrange(
  canvas: StaticCanvas,
  next: readonly FabricDisplayObject[],
  present: ReadonlySet<FabricDisplayObject>,
): void {
  const wanted = new Set(next);
  const gone = [...present].filter((object) => !wanted.has(object));
  const fresh = next.filter((object) => !present.has(object));
  if (fresh.length > next.length / 4) {
    canvas.clear();
    canvas.add(...next);
    return;
  }
  if (gone.length > 0) canvas.remove(...gone);
  for (const [index, object] of next.entries()) {
    if (canvas.item(index) === object) continue;
    if (present.has(object)) canvas.moveObjectTo(object, index);
    else canvas.insertAt(index, object);
  }
}
