import type { Point } from '../../geometry/point.ts';
import { serviceWord } from '../../services/servicePoint.ts';
import { serviceKinds } from '../../stock/stockSchema.ts';
import { polygonPath } from '../drawing/drawnPath.ts';
import { hatchTiles } from '../drawing/hatchTiles.ts';
import { PaperPen, type PenFont } from '../drawing/paperPen.ts';
import { serviceCode } from './floorPlan.ts';
import { capital, green, ink, lines, quiet, vermilion } from './planInk.ts';
import { drawServiceSymbol } from './serviceSymbol.ts';
import type { ColumnBlock } from './textFlow.ts';

/** How long the check line is, mm of paper. */
export const checkLineMm = 100;

/** A line that must measure 100 mm on the printed sheet. */
export const checkLine = (font: PenFont): ColumnBlock => {
  const pen = new PaperPen(font);
  const y = -5.5;
  const line = { widthMm: 0.25, colour: ink };
  pen.line(
    [
      { x: 0, y },
      { x: checkLineMm, y },
    ],
    line,
  );
  for (let step = 0; step <= 10; step += 1) {
    const x = step * 10;
    const high = step % 5 === 0 ? 2 : 1.2;
    pen.line(
      [
        { x, y },
        { x, y: y + high },
      ],
      line,
    );
  }
  pen.text({
    text: 'This line must measure 100 mm (3 15/16") on the print; if it does not, do not scale from it.',
    at: { x: 0, y: y - 3.4 },
    capitalMm: capital.small,
    colour: ink,
    mostMm: checkLineMm,
  });
  pen.text({ text: '0', at: { x: 0.6, y: y + 2.5 }, capitalMm: capital.small, colour: quiet });
  pen.text({
    text: '100',
    at: { x: checkLineMm - 0.6, y: y + 2.5 },
    align: 'end',
    capitalMm: capital.small,
    colour: quiet,
  });
  return { heightMm: 11, picture: pen.picture() };
};

const box = (x: number, y: number, width: number, height: number): readonly Point[] => [
  { x, y },
  { x: x + width, y },
  { x: x + width, y: y + height },
  { x, y: y + height },
];

type Sample = (pen: PaperPen, x: number, y: number) => void;
const ringed =
  (line: Parameters<PaperPen['line']>[1], hatch?: keyof typeof hatchTiles): Sample =>
  (pen, x, y) => {
    const ring = box(x, y, 9, 3.4);
    if (hatch)
      pen.hatch(
        polygonPath(ring.map((point) => [point.x, point.y] as const)),
        hatchTiles[hatch],
        hatchTiles[hatch].tone === 'line' ? quiet : vermilion,
      );
    pen.ring(ring, { line });
  };
const lined =
  (line: Parameters<PaperPen['line']>[1]): Sample =>
  (pen, x, y) =>
    pen.line(
      [
        { x, y: y + 1.7 },
        { x: x + 9, y: y + 1.7 },
      ],
      line,
    );

/** What the plan's marks mean. */
const pieceEntries: readonly (readonly [words: string, sample: Sample])[] = [
  ['front line, as traced', lined(lines.front)],
  ['back line', lined(lines.back)],
  ['module, corner piece', ringed(lines.piece)],
  [
    'station',
    (pen, x, y) => {
      pen.ring(box(x, y, 9, 3.4), { line: lines.station });
      pen.ring(box(x + 0.7, y + 0.7, 7.6, 2), { line: { widthMm: 0.13, colour: green } });
    },
  ],
  ['leftover: closes', ringed(lines.leftover, 'closes')],
  ['leftover: filler', ringed(lines.leftover, 'filler')],
  ['leftover: made to measure', ringed(lines.leftover, 'made-to-measure')],
  ['opening', ringed(lines.opening)],
  ['bay: by others, under the top', ringed(lines.opening, 'bay')],
  ['low section', ringed(lines.opening, 'low')],
  ['blocked: nothing stands here', ringed(lines.blocked, 'blocked')],
  [
    'datum, with its name',
    (pen, x, y) => {
      const ring = Array.from({ length: 24 }, (_, step) => ({
        x: x + 4.5 + 1.5 * Math.cos((step * Math.PI) / 12),
        y: y + 1.7 + 1.5 * Math.sin((step * Math.PI) / 12),
      }));
      const centre = { x: x + 4.5, y: y + 1.7 };
      pen.ring(ring, { line: lines.datum });
      for (const from of [0, 12]) pen.ring([centre, ...ring.slice(from, from + 7)], { fill: ink });
    },
  ],
];

const sectionEntry: (typeof pieceEntries)[number] = [
  'section S\u2013S, seen as the arrow points',
  (pen, x, y) => {
    pen.line(
      [
        { x: x + 2, y },
        { x: x + 2, y: y + 3 },
      ],
      { widthMm: 0.7, colour: ink },
    );
    pen.line(
      [
        { x: x + 2, y: y + 3 },
        { x: x + 6, y: y + 3 },
      ],
      { widthMm: 0.25, colour: ink },
    );
    pen.ring(
      [
        { x: x + 6, y: y + 3 },
        { x: x + 4, y: y + 3.6 },
        { x: x + 4, y: y + 2.4 },
      ],
      { fill: ink },
    );
  },
];

const serviceEntries: readonly (readonly [words: string, sample: Sample])[] = serviceKinds.map((kind) => [
  `${serviceCode[kind]}: ${serviceWord[kind].toLowerCase()}`,
  (pen, x, y) => drawServiceSymbol(pen, { x: x + 4.5, y: y + 1.7 }, kind),
]);

/** The key of the plan, or of its services, in two columns. */
export const keyBlock = (
  font: PenFont,
  widthMm: number,
  shows: 'pieces' | 'services' = 'pieces',
  hasSections = false,
): ColumnBlock => {
  const entries =
    shows === 'services' ? serviceEntries : [...pieceEntries, ...(hasSections ? [sectionEntry] : [])];
  const pen = new PaperPen(font);
  const half = Math.ceil(entries.length / 2);
  const step = 5.2;
  pen.text({ text: 'Key', at: { x: 0, y: -3.1 }, capitalMm: capital.usual, colour: ink });
  for (const [index, [words, sample]] of entries.entries()) {
    const x = index < half ? 0 : widthMm / 2;
    const y = -4.5 - ((index % half) + 1) * step;
    sample(pen, x, y);
    pen.text({
      text: words,
      at: { x: x + 11.5, y: y + 0.8 },
      capitalMm: capital.small,
      colour: ink,
      mostMm: widthMm / 2 - 12.5,
    });
  }
  return { heightMm: 6 + half * step, picture: pen.picture() };
};
