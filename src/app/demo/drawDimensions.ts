import type { PlanPen, XY } from './planPen.ts';

/** A string of dimensions along one axis, in the millimetres of its pen. */
export interface DimensionString {
  readonly along: 'x' | 'y';
  /** The other coordinate of the dimension line. */
  readonly at: number;
  readonly stops: readonly number[];
  /** Other coordinate where the extension lines start: the object; one for all, or one a stop. */
  readonly object: number | readonly number[];
}

const dimensionPen = { pen: 0.13 };
const tickPen = { pen: 0.35 };
const cap = 2;

/**
 * Draws a dimension string: extension lines that start clear of the object and run past the dimension line, oblique
 * strokes at the stops, figures above the line (read from below or from the right).
 * Clearances are on paper: 1.5 mm from the object, 1.5 mm past the line, figures 0.8 mm above.
 */
export const drawDimensionString = (pen: PlanPen, string: DimensionString): void => {
  const paper = pen.ratio;
  const on = (along: number, across: number): XY =>
    string.along === 'x' ? [along, across] : [across, along];
  const { stops, at } = string;
  const objectAt = (index: number): number =>
    typeof string.object === 'number' ? string.object : string.object[index]!;
  for (const [index, stop] of stops.entries()) {
    const object = objectAt(index);
    const away = Math.sign(at - object);
    pen.line(on(stop, object + away * 1.5 * paper), on(stop, at + away * 1.5 * paper), {
      pen: 0.1,
      grey: 0.2,
    });
    const half = 0.9 * paper;
    pen.line(
      [on(stop, at)[0] - half, on(stop, at)[1] - half],
      [on(stop, at)[0] + half, on(stop, at)[1] + half],
      tickPen,
    );
  }
  const first = stops[0]!;
  const last = stops[stops.length - 1]!;
  pen.line(on(first - 1.5 * paper, at), on(last + 1.5 * paper, at), dimensionPen);

  for (let index = 1; index < stops.length; index += 1) {
    const from = stops[index - 1]!;
    const to = stops[index]!;
    const lengthMm = to - from;
    const text = String(lengthMm);
    if (pen.letterWidth(text, { cap }) > lengthMm - 1.2 * paper)
      throw new Error(`dimension ${text} does not fit between its strokes at ${first}`);
    const above = 0.8 * paper;
    const middle = (from + to) / 2;
    if (string.along === 'x') pen.letter(text, [middle, at + above], { cap, align: 'centre' });
    else pen.letter(text, [at - above, middle], { cap, align: 'centre', angleDeg: 90 });
  }
};
