import { lineDashMm, lineWeightMm, type Shape } from './drawing.ts';
import { rectanglePath } from './drawnPath.ts';
import { hatchTiles } from './hatchTiles.ts';
import { PaperPen, type Rgb } from './paperPen.ts';
import { matchLineTag } from './partOfDrawing.ts';
import { lettering, type SettledDrawing, type SettledText } from './settledDrawing.ts';

const ink: Rgb = [0.1, 0.11, 0.12];
const quiet: Rgb = [0.42, 0.44, 0.46];
const ruling: Rgb = [0.32, 0.34, 0.36];
/** Vermilion of the Okabe-Ito set (2002, from memory), darkened for thin lines: what asks for a decision. */
const mark: Rgb = [0.7, 0.28, 0];

/** Tints of what the shapes stand for: pale, so that lines and hatches carry the drawing in a black-and-white print. */
const tints: Readonly<Record<NonNullable<Shape['fill']>, Rgb>> = {
  top: [0.8, 0.82, 0.84],
  face: [1, 1, 1],
  panel: [0.95, 0.955, 0.96],
  recess: [0.88, 0.89, 0.9],
  ground: [0.9, 0.9, 0.9],
  solid: ink,
  content: [0.93, 0.94, 0.95],
};

/** Draws the shapes of a display list, mm of paper. */
export const drawShapes = (
  pen: PaperPen,
  shapes: readonly Shape[],
  lineShare: number,
  colour: Rgb = ink,
): void => {
  for (const { path, stroke, fill, hatch } of shapes) {
    if (fill) pen.path(path, { fill: tints[fill] });
    if (hatch) pen.hatch(path, hatchTiles[hatch], hatchTiles[hatch].tone === 'mark' ? mark : quiet);
    if (stroke)
      pen.path(path, {
        line: {
          widthMm: lineWeightMm[stroke.weight] * lineShare,
          colour,
          dashMm: lineDashMm[stroke.type],
        },
      });
  }
};

/** Draws texts in the places that they found, squeezed where the font runs wider than was reckoned with. */
export const drawTexts = (pen: PaperPen, texts: readonly SettledText[]): void => {
  for (const one of texts) {
    const { box, isFramed, align, baseline, capitalMm, text, quietText } = one;
    if (isFramed)
      pen.path(rectanglePath(box.left, box.bottom, box.right, box.top), {
        fill: [1, 1, 1],
        line: { widthMm: 0.18, colour: ink },
      });
    const pad = isFramed ? lettering.framePadMm : 0;
    const room = box.right - box.left - 2 * pad;
    const whole = quietText ? `${text} ${quietText}` : text;
    const width = Math.min(room, pen.textWidth(whole, capitalMm));
    const left = {
      start: box.left + pad,
      middle: (box.left + box.right - width) / 2,
      end: box.right - pad - width,
    }[align];
    // Notes stand in what they name, which may be hatched.
    const shared = { capitalMm, align: 'start' as const, hasGround: one.role === 'note' };
    if (!quietText) {
      pen.text({ ...shared, text, at: { x: left, y: baseline }, colour: ink, mostMm: width });
      continue;
    }
    const share = pen.textWidth(`${text} `, capitalMm) / pen.textWidth(whole, capitalMm);
    pen.text({ ...shared, text, at: { x: left, y: baseline }, colour: ink, mostMm: width * share });
    pen.text({
      ...shared,
      text: quietText,
      at: { x: left + width * share, y: baseline },
      colour: quiet,
      mostMm: width * (1 - share),
    });
  }
};

/**
 * Draws a settled drawing with the floor line's left end at the origin. Everything lies within `bounds`, widened on its left
 * by the levels' width.
 */
export const drawingToPdf = (pen: PaperPen, drawing: SettledDrawing): void => {
  const { shapes, rulings, texts, levels, lineShare, bounds, cutAt } = drawing;
  if (cutAt) {
    const inside = shapes.filter(({ tag }) => tag !== matchLineTag);
    pen.within(
      {
        minX: cutAt.left ?? bounds.left - 500,
        maxX: cutAt.right ?? bounds.right + 500,
        minY: bounds.bottom,
        maxY: bounds.top,
      },
      () => drawShapes(pen, inside, lineShare),
    );
    drawShapes(
      pen,
      shapes.filter(({ tag }) => tag === matchLineTag),
      1,
    );
  } else drawShapes(pen, shapes, lineShare);
  drawShapes(pen, rulings, 1, ruling);
  drawTexts(pen, texts);
  const column = new PaperPen(pen.font);
  drawShapes(column, levels.rulings, 1, ruling);
  drawTexts(column, levels.texts);
  pen.put(column.picture(), { x: Math.min(0, bounds.left), y: 0 });
};
