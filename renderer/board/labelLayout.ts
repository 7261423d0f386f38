import type { DisplayItem, LabelItem, MarkItem, MarkOffset } from './displayList.ts';
import type { LabelBox, LabelMove } from './labelBox.ts';
import { crosses, type LeaderLine, leaderLine } from './leaderLine.ts';
import { type LabelPlace, placeLabel } from './placeLabel.ts';
import { pxPerPaperUnit, type ViewTransform } from './viewTransform.ts';

/** A label with a fixed shift on the screen, which marks use for their word. */
export type PlacedLabel = LabelItem & { readonly offsetPx?: MarkOffset };

export interface LabelLayout {
  /** For every label and every mark with a word: where its text goes; null where it finds no room. */
  readonly moves: ReadonlyMap<DisplayItem, LabelMove | null>;
  readonly boxes: readonly LabelBox[];
}

export interface LabelSizing {
  /** Length of the text, in CSS pixels. */
  readonly lengthPx: (item: PlacedLabel) => number;
  /** How much larger than usual text is to be: 2 for 200 %. */
  readonly textScale: number;
}

export const defaultLabelPx = 12;
/** Height of a line of text as a share of its size: ascenders, descenders, and a little air. */
const lineHeight = 1.24;
/** Left free in a label's room, so that the labels of neighbours don't run together. */
const roomGapPx = 5;
/** Left free between texts that have nothing to do with one another. */
const airPx = 2;
const cellPx = 96;

const moved = (x: number, y: number): LabelMove => ({ dxPx: x, dyPx: y });

/** The word of a mark as a label beside it. */
export const wordOfMark = (mark: MarkItem): PlacedLabel | null =>
  mark.word
    ? {
        kind: 'label',
        id: mark.id,
        at: mark.at,
        text: mark.word,
        align: 'start',
        offsetPx: { xPx: 12, yPx: 16 },
        tone: mark.line.tone,
      }
    : null;

/** What gives way last comes first: what the operator works on, then names and lengths, then the letters of pieces. */
const rankOf = (item: PlacedLabel): number => {
  if (item.roomAcrossUnits !== undefined) return item.state === 'selected' ? 3 : item.isStrong ? 4 : 5;
  if (item.roomUnits !== undefined) return 2;
  return item.isStrong ? 0 : 1;
};

/** Whether a label finds the room on the paper that it asks for. */
export const hasRoom = (view: ViewTransform, item: LabelItem, sizePx: number, lengthPx: number): boolean => {
  const scale = pxPerPaperUnit(view);
  if (item.roomAcrossUnits !== undefined && item.roomAcrossUnits * scale < sizePx) return false;
  return item.roomUnits === undefined || lengthPx + roomGapPx <= item.roomUnits * scale;
};

/** The room of a text that stands `move` off its place. */
export const boxAt = (place: LabelPlace, move: LabelMove, lengthPx: number, sizePx: number): LabelBox => {
  const cos = Math.cos(place.angleRad);
  const sin = Math.sin(place.angleRad);
  const middle = { start: lengthPx / 2, middle: 0, end: -lengthPx / 2 }[place.align];
  return {
    x: place.x + move.dxPx + cos * middle,
    y: place.y + move.dyPx + sin * middle,
    cos,
    sin,
    halfLengthPx: lengthPx / 2,
    halfHeightPx: (sizePx * lineHeight) / 2,
  };
};

/** Whether two texts lie over one another, `air` pixels counted in: no line between turned rectangles parts them. */
export const isOver = (a: LabelBox, b: LabelBox, air = 0): boolean => {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const cos = Math.abs(a.cos * b.cos + a.sin * b.sin);
  const sin = Math.abs(a.cos * b.sin - a.sin * b.cos);
  const parts = (one: LabelBox, other: LabelBox): boolean =>
    Math.abs(dx * one.cos + dy * one.sin) >=
      one.halfLengthPx + other.halfLengthPx * cos + other.halfHeightPx * sin + air ||
    Math.abs(dy * one.cos - dx * one.sin) >=
      one.halfHeightPx + other.halfLengthPx * sin + other.halfHeightPx * cos + air;
  return !parts(a, b) && !parts(b, a);
};

/** The places that a text may take, the best first: where it belongs, further out, on the other side, along its line. */
const movesFor = (
  view: ViewTransform,
  item: PlacedLabel,
  place: LabelPlace,
  lengthPx: number,
  sizePx: number,
): readonly LabelMove[] => {
  const here = moved(0, 0);
  if (item.roomAcrossUnits !== undefined) return [here];
  const { offsetPx } = item;
  if (offsetPx) {
    const left = -lengthPx - 2 * offsetPx.xPx;
    return [0, -2 * offsetPx.yPx, sizePx * lineHeight, -2 * offsetPx.yPx - sizePx * lineHeight].flatMap(
      (dyPx) => [moved(0, dyPx), moved(left, dyPx)],
    );
  }
  const bare = placeLabel(view, { ...item, shift: undefined });
  const [outX, outY] = [place.x - bare.x, place.y - bare.y];
  const outPx = Math.hypot(outX, outY);
  const step = sizePx * lineHeight + airPx;
  const [ux, uy] =
    outPx > 0 ? [outX / outPx, outY / outPx] : [Math.sin(place.angleRad), -Math.cos(place.angleRad)];
  // What the operator works on looks further for a place than what may be left out.
  const reach = item.isStrong ? { lines: 10, lengths: 2 } : { lines: 5, lengths: 1 };
  const lines = Array.from({ length: reach.lines }, (_, count) => count * step);
  const across = [...lines, ...lines.map((line) => -2 * outPx - line).slice(outPx > 0 ? 0 : 1)];
  const along = Array.from({ length: 4 * reach.lengths + 1 }, (_, half) => half / 2 - reach.lengths).map(
    (share) => share * (lengthPx + airPx),
  );
  const [cx, cy] = [Math.cos(place.angleRad), Math.sin(place.angleRad)];
  const all = along.flatMap((way) =>
    across.map((line) => ({
      move: moved(ux * line + cx * way, uy * line + cy * way),
      far: Math.abs(way) + Math.abs(line),
    })),
  );
  return all.sort((one, other) => one.far - other.far).map(({ move }) => move);
};

interface Cells {
  readonly isFree: (box: LabelBox) => boolean;
  readonly take: (box: LabelBox) => void;
}

/** Texts by the squares of the screen that they touch, so that each is compared with its neighbours only. */
const createCells = (): Cells => {
  const cells = new Map<string, LabelBox[]>();
  const keysOf = (box: LabelBox): readonly string[] => {
    const halfX = box.halfLengthPx * Math.abs(box.cos) + box.halfHeightPx * Math.abs(box.sin) + airPx;
    const halfY = box.halfLengthPx * Math.abs(box.sin) + box.halfHeightPx * Math.abs(box.cos) + airPx;
    const keys: string[] = [];
    for (let x = Math.floor((box.x - halfX) / cellPx); x <= (box.x + halfX) / cellPx; x += 1)
      for (let y = Math.floor((box.y - halfY) / cellPx); y <= (box.y + halfY) / cellPx; y += 1)
        keys.push(`${x} ${y}`);
    return keys;
  };
  return {
    isFree: (box) => keysOf(box).every((key) => !cells.get(key)?.some((other) => isOver(box, other, airPx))),
    take: (box) => {
      for (const key of keysOf(box)) {
        const cell = cells.get(key);
        if (cell) cell.push(box);
        else cells.set(key, [box]);
      }
    },
  };
};

/**
 * Finds a place for every text so that none lies over another: where several want one place, what matters more takes it
 * and the others move out, to the other side or along their line; what then still finds no room is left out. The answer
 * is the same wherever the sheet lies on the screen, so that nothing jumps while it is moved.
 *
 * @param taken texts of other layers, which keep their places
 */
export const layOutLabels = (
  items: readonly DisplayItem[],
  view: ViewTransform,
  sizing: LabelSizing,
  taken: readonly LabelBox[] = [],
): LabelLayout => {
  const atCorner: ViewTransform = { ...view, originX: 0, originY: 0 };
  const cells = createCells();
  for (const box of taken) cells.take(box);
  const labels = items.flatMap((item): { item: DisplayItem; label: PlacedLabel }[] => {
    if (item.kind === 'label') return [{ item, label: item }];
    const label = item.kind === 'mark' ? wordOfMark(item) : null;
    return label ? [{ item, label }] : [];
  });
  const moves = new Map<DisplayItem, LabelMove | null>();
  const boxes: LabelBox[] = [];
  const far: { item: DisplayItem; move: LabelMove; box: LabelBox; line: LeaderLine }[] = [];
  for (const { item, label } of labels.sort((one, other) => rankOf(one.label) - rankOf(other.label))) {
    moves.set(item, null);
    const sizePx = (label.sizePx ?? defaultLabelPx) * sizing.textScale;
    // No letter is narrower than about a quarter of its size: saves measuring what can't find room.
    if (!hasRoom(view, label, sizePx, label.text.length * sizePx * 0.25)) continue;
    const lengthPx = sizing.lengthPx(label);
    if (!hasRoom(view, label, sizePx, lengthPx)) continue;
    const place = placeLabel(atCorner, label, sizing.textScale);
    for (const move of movesFor(atCorner, label, place, lengthPx, sizePx)) {
      const box = boxAt(place, move, lengthPx, sizePx);
      if (!cells.isFree(box)) continue;
      cells.take(box);
      boxes.push(box);
      moves.set(item, move);
      const isOwnPlace = label.offsetPx !== undefined || label.roomAcrossUnits !== undefined;
      const line = isOwnPlace
        ? null
        : leaderLine(box, move, placeLabel(atCorner, { ...label, shift: undefined }));
      if (line) far.push({ item, move, box, line });
      break;
    }
  }
  // A line through other texts would take more than it gives.
  for (const { item, move, box, line } of far)
    if (![...boxes, ...taken].some((other) => other !== box && crosses(line, other)))
      moves.set(item, { ...move, hasLeader: true });
  return { moves, boxes };
};
