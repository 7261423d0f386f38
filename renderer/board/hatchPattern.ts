import type { HatchKind } from './displayList.ts';
import type { PaintCache } from './paintCache.ts';

/** Strokes of one tile of a hatch, in CSS pixels; tiles repeat seamlessly. */
interface HatchTile {
  readonly sizePx: number;
  readonly widthPx: number;
  readonly strokes: readonly (readonly [number, number, number, number])[];
}

/** 45 degree strokes reach over the tile's corners so that repeats join. */
const rising = (s: number) =>
  [
    [-1, 1, 1, -1],
    [0, s, s, 0],
    [s - 1, s + 1, s + 1, s - 1],
  ] as const;
const falling = (s: number) =>
  [
    [-1, s - 1, 1, s + 1],
    [0, 0, s, s],
    [s - 1, -1, s + 1, 1],
  ] as const;

/**
 * The line patterns, told apart without colour: filler, one set of strokes; made to measure, two crossed sets;
 * blocked, close and heavy strokes the other way; opening, broken level strokes; bay, upright strokes; low section,
 * level strokes; a leftover that closes, dots. Common practice of section hatching, no source for the assignment.
 */
const TILES: Readonly<Record<HatchKind, HatchTile>> = {
  filler: { sizePx: 8, widthPx: 1.5, strokes: rising(8) },
  'made-to-measure': { sizePx: 9, widthPx: 1.25, strokes: [...rising(9), ...falling(9)] },
  blocked: { sizePx: 6, widthPx: 2, strokes: falling(6) },
  opening: {
    sizePx: 12,
    widthPx: 1.25,
    strokes: [
      [0, 3, 6, 3],
      [6, 9, 12, 9],
    ],
  },
  bay: { sizePx: 7, widthPx: 1, strokes: [[3.5, 0, 3.5, 7]] },
  'low-section': { sizePx: 7, widthPx: 1, strokes: [[0, 3.5, 7, 3.5]] },
  closes: { sizePx: 7, widthPx: 1.5, strokes: [[3, 3.5, 4.25, 3.5]] },
};

/**
 * A fill of this hatch whose tiles hang from `(originX, originY)` in CSS pixels, so that they move with the sheet.
 * The context's unit must be the CSS pixel.
 */
export function hatchFill(
  cache: PaintCache,
  context: CanvasRenderingContext2D,
  kind: HatchKind,
  colour: string,
  devicePixelRatio: number,
  originX: number,
  originY: number,
): CanvasPattern | string {
  const key = `${kind} ${colour} ${devicePixelRatio}`;
  let pattern = cache.patterns.get(key) ?? null;
  if (pattern === null) {
    pattern = context.createPattern(drawTile(TILES[kind], colour, devicePixelRatio), 'repeat');
    if (pattern === null) return colour;
    cache.patterns.set(key, pattern);
  }
  const { sizePx } = TILES[kind];
  const drawnPx = Math.round(sizePx * devicePixelRatio);
  const scale = sizePx / drawnPx;
  pattern.setTransform(new DOMMatrix([scale, 0, 0, scale, originX % sizePx, originY % sizePx]));
  return pattern;
}

function drawTile(tile: HatchTile, colour: string, devicePixelRatio: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  // Whole device pixels, or the repeats would not meet.
  canvas.width = Math.round(tile.sizePx * devicePixelRatio);
  canvas.height = canvas.width;
  const context = canvas.getContext('2d');
  if (context === null) return canvas;
  context.scale(canvas.width / tile.sizePx, canvas.height / tile.sizePx);
  context.strokeStyle = colour;
  context.lineWidth = tile.widthPx;
  context.beginPath();
  for (const [x1, y1, x2, y2] of tile.strokes) {
    context.moveTo(x1, y1);
    context.lineTo(x2, y2);
  }
  context.stroke();
  return canvas;
}
