import type { Box } from '../../geometry/box.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import type { Paper } from './papers.ts';
import { capital, ink } from './planInk.ts';

/**
 * Borders of ISO 5457:1999 (from memory): 20 mm at the left for filing, 10 mm at the other sides, a frame of 0.7 mm,
 * centring marks, a grid reference of 50 mm fields counted from the centring marks (letters without I and O downwards,
 * numbers to the right), trimming marks in the corners.
 */
export const frameOf = ({ widthMm, heightMm }: Paper): Box => ({
  minX: 20,
  minY: 10,
  maxX: widthMm - 10,
  maxY: heightMm - 10,
});

const gridMm = 50;
const bandMm = 5;
const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** Where the fields of a grid reference part, from the middle outwards, and the fields' middles. */
const gridOf = (
  from: number,
  to: number,
): { readonly stops: readonly number[]; readonly middles: readonly number[] } => {
  const middle = (from + to) / 2;
  const half = Math.max(1, Math.floor((to - middle) / gridMm + 0.4));
  const stops = Array.from({ length: 2 * half + 1 }, (_, index) => middle + (index - half) * gridMm).filter(
    (stop) => stop > from + 1 && stop < to - 1,
  );
  const all = [from, ...stops, to];
  return { stops, middles: all.slice(1).map((stop, index) => (stop + all[index]!) / 2) };
};

/** Draws the border of a sheet. */
export const drawFrame = (pen: PaperPen, paper: Paper): void => {
  const frame = frameOf(paper);
  const { minX, minY, maxX, maxY } = frame;
  const ring = (by: number) => [
    { x: minX - by, y: minY - by },
    { x: maxX + by, y: minY - by },
    { x: maxX + by, y: maxY + by },
    { x: minX - by, y: maxY + by },
  ];
  const thin = { widthMm: 0.35, colour: ink };
  const thick = { widthMm: 0.7, colour: ink };
  pen.ring(ring(0), { line: thick });
  pen.ring(ring(bandMm), { line: thin });

  const across = gridOf(minX, maxX);
  const down = gridOf(minY, maxY);
  const [midX, midY] = [(minX + maxX) / 2, (minY + maxY) / 2];
  for (const x of across.stops)
    for (const y of [minY - bandMm, maxY])
      pen.line(
        [
          { x, y },
          { x, y: y + bandMm },
        ],
        thin,
      );
  for (const y of down.stops)
    for (const x of [minX - bandMm, maxX])
      pen.line(
        [
          { x, y },
          { x: x + bandMm, y },
        ],
        thin,
      );
  // Centring marks reach from the edge of the sheet into the frame.
  pen.line(
    [
      { x: midX, y: 0 },
      { x: midX, y: minY + 5 },
    ],
    thick,
  );
  pen.line(
    [
      { x: midX, y: paper.heightMm },
      { x: midX, y: maxY - 5 },
    ],
    thick,
  );
  pen.line(
    [
      { x: minX - bandMm - 5, y: midY },
      { x: minX + 5, y: midY },
    ],
    thick,
  );
  pen.line(
    [
      { x: paper.widthMm, y: midY },
      { x: maxX - 5, y: midY },
    ],
    thick,
  );

  const note = (text: string, x: number, y: number) =>
    pen.text({
      text,
      at: { x, y },
      align: 'middle',
      vertical: 'middle',
      capitalMm: capital.usual,
      colour: ink,
    });
  for (const [index, x] of across.middles.entries())
    for (const y of [minY - bandMm / 2, maxY + bandMm / 2]) note(String(index + 1), x, y);
  for (const [index, y] of down.middles.toReversed().entries())
    for (const x of [minX - bandMm / 2, maxX + bandMm / 2]) note(letters[index] ?? '', x, y);

  const { widthMm, heightMm } = paper;
  for (const [x, y, sx, sy] of [
    [0, 0, 1, 1],
    [widthMm, 0, -1, 1],
    [widthMm, heightMm, -1, -1],
    [0, heightMm, 1, -1],
  ] as const)
    pen.ring(
      [
        { x, y },
        { x: x + sx * 4, y },
        { x: x + sx * 4, y: y + sy * 2 },
        { x: x + sx * 2, y: y + sy * 2 },
        { x: x + sx * 2, y: y + sy * 4 },
        { x, y: y + sy * 4 },
      ],
      { fill: ink },
    );
};
