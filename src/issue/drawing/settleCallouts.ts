import type { Callout, Shape } from './drawing.ts';
import { drawingPen } from './drawingPen.ts';
import { lettering, type SettledText, settledText } from './settledDrawing.ts';
import { spreadLabels } from './spreadLabels.ts';
import { textWidthMm } from './textWidth.ts';

const { capitalMm, gapMm, framePadMm } = lettering;
const rowMm = capitalMm + 2 * framePadMm + 0.6;
const clearMm = 1.2;
const mostRows = 4;
const leastReachMm = 12;
const longestMm = 62;

/** Cut to a length, with an ellipsis, so that one long name can't push all others away. */
export const shortened = (text: string, mostMm: number): string => {
  if (textWidthMm(text, capitalMm) <= mostMm) return text;
  const letters = [...text];
  while (letters.length > 1 && textWidthMm(`${letters.join('').trimEnd()}…`, capitalMm) > mostMm)
    letters.pop();
  return `${letters.join('').trimEnd()}…`;
};

export interface SettledCallouts<Part extends string> {
  readonly rulings: readonly Shape<Part>[];
  readonly texts: readonly SettledText<Part>[];
  readonly top: number;
}

/** Lays callouts out in rows from `base` upwards, with their leaders; in the lowest row as many as find room there. */
export const settleCallouts = <Part extends string>(
  callouts: readonly Callout<Part>[],
  ratio: number,
  base: number,
): SettledCallouts<Part> => {
  const pen = drawingPen<Part>(0, { tag: 'leader' });
  const texts: SettledText<Part>[] = [];
  let waiting = callouts.map((callout) => {
    const text = shortened(callout.text, longestMm);
    const markMm = callout.mark === undefined ? 0 : textWidthMm(callout.mark, capitalMm) + 2 * framePadMm;
    const textMm = text === '' ? 0 : textWidthMm(text, capitalMm);
    const between = markMm > 0 && textMm > 0 ? 0.8 : 0;
    return { callout, text, markMm, textMm, width: markMm + between + textMm, x: callout.at.x / ratio };
  });
  let rows = 0;
  while (waiting.length > 0 && rows < mostRows) {
    const baseline = base + clearMm + rows * rowMm + framePadMm;
    const centres = spreadLabels(
      waiting.map(({ x, width, callout }) => ({
        centre: x,
        width,
        rank: callout.rank,
        // Wide texts may stand beside their place, narrow ones stay over it.
        reach: Math.max(leastReachMm, width / 2 + 3),
      })),
      { gap: gapMm * 1.6, mostShift: leastReachMm },
    );
    const next: typeof waiting = [];
    for (const [index, one] of waiting.entries()) {
      const centre = centres[index];
      if (centre === undefined) {
        next.push(one);
        continue;
      }
      const { callout, text, markMm, textMm, width, x } = one;
      const left = centre - width / 2;
      if (callout.mark !== undefined)
        texts.push(
          settledText(
            'mark',
            { text: callout.mark, part: callout.part },
            { x: left + markMm / 2, baseline, widthMm: markMm },
            { isFramed: true },
          ),
        );
      if (textMm > 0)
        texts.push(
          settledText(
            'callout',
            { text, part: callout.part },
            { x: left + width - textMm, baseline, widthMm: textMm },
            { align: 'start' },
          ),
        );
      {
        const foot = baseline - framePadMm;
        const hold = Math.min(Math.max(x, left + 0.8), left + width - 0.8);
        const y = callout.at.y / ratio;
        pen.line(
          hold === x
            ? [
                [x, y],
                [x, foot],
              ]
            : [
                [x, y],
                [x, Math.min(base, foot)],
                [hold, foot],
              ],
          { weight: 'thin' },
        );
        if (callout.leader === 'dot') pen.circle([x, y], 0.32, { fill: 'solid' });
      }
    }
    waiting = next;
    rows += 1;
  }
  return { rulings: pen.shapes, texts, top: rows === 0 ? base : base + clearMm + rows * rowMm + 0.2 };
};
