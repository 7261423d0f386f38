import type { ApiOutput } from '../../src/app/apiMethods.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { decodeLinework } from '../../src/sheet/lineworkWire.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { Board } from '../board/board.ts';
import type { DisplayItem, LineStyle } from '../board/displayList.ts';

export type Registered = Extract<ApiOutput<'register-revision'>['registration'], { isRegistered: true }>;
type Part = Registered['changes']['gone'][number];

/** Longest parts that carry a letter, and moves that carry an arrow: more than these and none can be read. */
const letteredMost = 40;
const arrowsMost = 60;

const lengthOf = ([x0, y0, x1, y1]: Part): number => Math.hypot(x1 - x0, y1 - y0);
const middleOf = ([x0, y0, x1, y1]: Part): PaperPoint => paperPoint((x0 + x1) / 2, (y0 + y1) / 2);

const segments = (id: string, parts: readonly Part[], line: LineStyle): DisplayItem => ({
  kind: 'segments',
  id,
  ends: parts.flatMap((part) => [...part]),
  line,
  isHittable: false,
});

const letters = (id: string, parts: readonly Part[], letter: string): readonly DisplayItem[] =>
  parts
    .toSorted((one, other) => lengthOf(other) - lengthOf(one))
    .slice(0, letteredMost)
    .map((part, index) => ({
      kind: 'label',
      id: `${id}/${index}`,
      at: middleOf(part),
      text: letter,
      sizePx: 11,
      isStrong: true,
      // Where the part is too short on the screen to say which line is meant, the letter waits until one is nearer.
      roomUnits: lengthOf(part),
      isHittable: false,
    }));

/** A move less what of it lies along the line: a line that grew longer has its middle elsewhere and has not moved for it. */
const squareTo = ([x0, y0, x1, y1]: Part, { x, y }: { readonly x: number; readonly y: number }) => {
  const length = Math.hypot(x1 - x0, y1 - y0);
  if (length === 0) return { x, y };
  const along = { x: (x1 - x0) / length, y: (y1 - y0) / length };
  const by = x * along.x + y * along.y;
  return { x: x - by * along.x, y: y - by * along.y };
};

/** Half the width of an arrow's head and its length, CSS pixels. */
const head = { across: 4, along: 9 };

const arrow = (
  id: string,
  from: PaperPoint,
  by: { readonly x: number; readonly y: number },
  words: string,
): readonly DisplayItem[] => {
  const to = paperPoint(from.x + by.x, from.y + by.y);
  const line: LineStyle = { tone: 'warning', widthPx: 1.5 };
  const alongRad = Math.atan2(by.y, by.x);
  return [
    { kind: 'polyline', id, points: [from, to], line, isHittable: false },
    {
      kind: 'mark',
      id: `${id}/head`,
      at: to,
      alongRad,
      strokes: [
        [
          { xPx: -head.along, yPx: -head.across },
          { xPx: 0, yPx: 0 },
          { xPx: -head.along, yPx: head.across },
        ],
      ],
      line,
      isHittable: false,
    },
    {
      kind: 'label',
      id: `${id}/mm`,
      at: to,
      text: words,
      sizePx: 11,
      tone: 'warning',
      isStrong: true,
      isHittable: false,
    },
  ];
};

/**
 * What differs between two revisions, over the later one: lines that are gone dashed and lettered A, lines that are new
 * solid, heavy and lettered B, and arrows with the way that lines moved.
 *
 * @param mmPerUnit millimetres of the room per user-space unit of the later sheet; null while it has no scale
 */
export const comparedItems = (
  { changes }: Registered,
  names: { readonly old: string; readonly later: string },
  mmPerUnit: number | null,
  unit: DisplayUnit,
): readonly DisplayItem[] => {
  const { gone, added, moved } = changes;
  const pointed = moved
    .toSorted((one, other) => lengthOf(gone[other.gone]!) - lengthOf(gone[one.gone]!))
    .slice(0, arrowsMost);
  return [
    segments('compare/gone', gone, { tone: 'warning', widthPx: 1.5, dashPx: [6, 4] }),
    segments('compare/added', added, { tone: 'ink', widthPx: 2.5 }),
    ...letters('compare/gone', gone, names.old),
    ...letters('compare/added', added, names.later),
    ...pointed.flatMap((move, index) => {
      const part = gone[move.gone]!;
      const by = squareTo(part, move);
      const byMm = mmPerUnit === null ? null : Math.hypot(by.x, by.y) * mmPerUnit;
      const words = byMm === null ? 'moved' : formatLength(Math.round(byMm), { unit });
      return arrow(`compare/move/${index}`, middleOf(part), by, words);
    }),
  ];
};

/** The corners of the sheet on the board; none while it is not laid out. */
export const sheetCorners = (board: Board): readonly PaperPoint[] => {
  const frame = board.view.get()?.frame;
  if (!frame) return [];
  const [minX, minY, maxX, maxY] = frame.viewBox;
  return [paperPoint(minX, minY), paperPoint(maxX, minY), paperPoint(maxX, maxY), paperPoint(minX, maxY)];
};

/** Points of a Bezier curve at which its chords are drawn. */
const curveSteps = 6;

/** The old sheet's linework on the later one, over a ground that hides it: what is seen while the two are swapped. */
export const swappedItems = (
  linework: Uint8Array,
  { map }: Registered,
  corners: readonly PaperPoint[],
): readonly DisplayItem[] => {
  const { lines, curves, lineCount, curveCount } = decodeLinework(linework);
  const ends = new Float64Array((lineCount + curveCount * curveSteps) * 4);
  const put = (at: number, x: number, y: number) => {
    ends[at] = map.a * x - map.b * y + map.e;
    ends[at + 1] = map.b * x + map.a * y + map.f;
  };
  for (let at = 0; at < lineCount * 4; at += 2) put(at, lines[at]!, lines[at + 1]!);
  let at = lineCount * 4;
  for (let curve = 0; curve < curveCount; curve += 1) {
    const c = curve * 8;
    const place = (step: number): readonly [number, number] => {
      const t = step / curveSteps;
      const s = 1 - t;
      const weights = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
      const sum = (offset: number) =>
        weights.reduce((total, weight, index) => total + weight * curves[c + index * 2 + offset]!, 0);
      return [sum(0), sum(1)];
    };
    for (let step = 0; step < curveSteps; step += 1, at += 4) {
      put(at, ...place(step));
      put(at + 2, ...place(step + 1));
    }
  }
  return [
    {
      kind: 'polygon',
      id: 'compare/ground',
      points: corners,
      fill: { tone: 'paper', opacity: 1 },
      isHittable: false,
    },
    { kind: 'segments', id: 'compare/old', ends, line: { tone: 'ink', widthPx: 1 }, isHittable: false },
  ];
};
