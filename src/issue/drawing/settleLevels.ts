import type { Level, Shape } from './drawing.ts';
import { drawingPen } from './drawingPen.ts';
import { lettering, type SettledText, settledText } from './settledDrawing.ts';
import { spreadLabels } from './spreadLabels.ts';
import { textWidthMm } from './textWidth.ts';

const { capitalMm, tailMm } = lettering;
const textRight = -5.2;
const betweenMm = 1.2;

/** Writes the heights above the floor in a column left of x = 0, those that lie close together spread apart with leaders. */
export const settleLevels = <Part extends string>(
  levels: readonly Level[],
  ratio: number,
): {
  readonly widthMm: number;
  readonly rulings: readonly Shape<Part>[];
  readonly texts: readonly SettledText<Part>[];
} => {
  const pen = drawingPen<Part>(0, { tag: 'level' });
  const texts: SettledText<Part>[] = [];
  const heights = levels.map(({ heightMm }) => heightMm / ratio);
  const places = spreadLabels(
    levels.map((_, index) => ({ centre: heights[index]!, width: capitalMm + tailMm, rank: -index })),
    { gap: 0.35, mostShift: 6 },
  );
  let widest = 0;
  for (const [index, { word, text }] of levels.entries()) {
    const y = heights[index]!;
    pen.line(
      [
        [-1.9, y],
        [0, y],
      ],
      { weight: 'thin' },
    );
    const middle = places[index];
    if (middle === undefined) continue;
    pen.line(
      [
        [-1.9, y],
        [textRight + 1.6, middle],
        [textRight + 0.7, middle],
      ],
      { weight: 'thin' },
    );
    const numberMm = textWidthMm(text, capitalMm);
    const wordMm = textWidthMm(word, capitalMm);
    const baseline = middle - capitalMm / 2;
    const wordRight = textRight - numberMm - betweenMm;
    texts.push(
      settledText('height', { text }, { x: textRight, baseline, widthMm: numberMm }, { align: 'end' }),
      settledText('level', { text: word }, { x: wordRight, baseline, widthMm: wordMm }, { align: 'end' }),
    );
    widest = Math.max(widest, numberMm + betweenMm + wordMm);
  }
  const top = Math.max(0, ...heights);
  pen.line(
    [
      [-0.9, 0],
      [-0.9, top],
    ],
    { weight: 'thin' },
  );
  return { widthMm: -textRight + widest + 0.6, rulings: pen.shapes, texts };
};
