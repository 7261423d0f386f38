import { drawingToPdf } from '../drawing/drawingToPdf.ts';
import { PaperPen, type PenFont } from '../drawing/paperPen.ts';
import { settleDrawing } from '../drawing/settleDrawing.ts';
import { spreadLabels } from '../drawing/spreadLabels.ts';
import type { FieldSize } from '../settingOut/choosePlans.ts';
import type { DrawnView } from '../settingOut/elevationSheets.ts';
import { type PaperSystem, sectionScales } from '../settingOut/papers.ts';
import { capital, ink, quiet } from '../settingOut/planInk.ts';
import { dot } from '../settingOut/planMarks.ts';
import { wrappedLines } from '../settingOut/textFlow.ts';
import type { SectionDrawing } from './drawSection.ts';

const titleMm = 9;
const lineMm = 3;
const mostLabelMm = 56;
const labelGapMm = 1.4;
const besideMm = 7;

/** A section at the largest preferred scale at which it fits a field, its words beside it on leaders; null where none does. */
export const sectionView = (
  { drawing, labels, assumption }: SectionDrawing,
  system: PaperSystem,
  field: FieldSize,
  font: PenFont,
): DrawnView | null => {
  for (const { ratio, words } of sectionScales[system]) {
    const settled = settleDrawing(drawing, ratio);
    const { bounds, levels } = settled;
    const left = Math.min(0, bounds.left) - levels.widthMm;
    const pen = new PaperPen(font);
    const body = new PaperPen(font);
    drawingToPdf(body, settled);

    const column = drawing.rightMm / ratio + besideMm;
    const widthOf = (text: string) => pen.textWidth(text, capital.small);
    const written = labels
      .map(({ at, text }) => ({
        at: { x: at.x / ratio, y: at.y / ratio },
        lines: wrappedLines(text, mostLabelMm, widthOf),
      }))
      .toSorted((one, other) => one.at.y - other.at.y || other.at.x - one.at.x);
    const heights = written.map(({ lines }) => lines.length * lineMm + labelGapMm);
    const centres = spreadLabels(
      written.map(({ at }, index) => ({ centre: at.y, width: heights[index]!, rank: 1 })),
      { gap: 0, mostShift: 1e6 },
    );
    // Above the floor line, so that the words under it stay clear.
    const lowest = Math.min(...centres.map((centre, index) => (centre ?? 0) - heights[index]! / 2), 0);
    const up = -lowest;
    let top = bounds.top;
    let right = bounds.right;
    for (const [index, { at, lines }] of written.entries()) {
      const middle = (centres[index] ?? at.y) + up;
      const first = middle + ((lines.length - 1) * lineMm) / 2 - capital.small / 2;
      body.line([at, { x: column - 2.5, y: middle }, { x: column - 0.8, y: middle }], {
        widthMm: 0.13,
        colour: ink,
      });
      body.ring(dot(at, 0.35), { fill: ink });
      for (const [line, text] of lines.entries()) {
        body.text({
          text,
          at: { x: column, y: first - line * lineMm },
          capitalMm: capital.small,
          colour: ink,
          mostMm: mostLabelMm,
        });
        right = Math.max(right, column + Math.min(mostLabelMm, widthOf(text)));
      }
      top = Math.max(top, middle + heights[index]! / 2);
    }
    const widthMm = right - left;
    const foot = wrappedLines(assumption, widthMm, widthOf);
    const heightMm = top - bounds.bottom + titleMm + foot.length * lineMm + 3;
    if (widthMm > field.widthMm || heightMm > field.heightMm) continue;

    const titleWidth = Math.min(widthMm * 0.5, pen.textWidth(drawing.title, capital.title));
    pen.text({
      text: drawing.title,
      at: { x: 0, y: -4.5 },
      capitalMm: capital.title,
      colour: ink,
      mostMm: titleWidth,
    });
    pen.text({
      text: `${words}; ${drawing.caption}`,
      at: { x: titleWidth + 4, y: -4.5 },
      capitalMm: capital.small,
      colour: quiet,
      mostMm: widthMm - titleWidth - 4,
    });
    pen.put(body.picture(), { x: -left, y: -titleMm - top });
    for (const [index, text] of foot.entries())
      pen.text({
        text,
        at: { x: 0, y: -titleMm - top + bounds.bottom - (index + 1) * lineMm },
        capitalMm: capital.small,
        colour: quiet,
        mostMm: widthMm,
      });
    return { shows: 'sections', picture: pen.picture(), widthMm, heightMm, ratio, scaleWords: words };
  }
  return null;
};
