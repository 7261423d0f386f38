import type { PDFRef } from '@cantoo/pdf-lib';
import { type AffineMatrix, composeMatrices } from '../../geometry/affine.ts';
import type { Box } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import type { PlanUnderlay } from './planUnderlay.ts';

const matrixText = (matrix: AffineMatrix): string => matrix.map((value) => value.toFixed(7)).join(' ');

/** The plan's own page under a field, turned as it is shown, reduced to the sheet's scale, and quietened. */
export const drawUnderlay = (
  pen: PaperPen,
  underlay: PlanUnderlay,
  place: {
    readonly field: Box;
    readonly origin: Point;
    readonly originPaper: Point;
    readonly mmPerUnit: number;
  },
): ReadonlyMap<string, PDFRef> => {
  const { field, origin, originPaper, mmPerUnit } = place;
  const turn = (-underlay.rotationDeg * Math.PI) / 180;
  const [cosine, sine] = [Math.round(Math.cos(turn)) * mmPerUnit, Math.round(Math.sin(turn)) * mmPerUnit];
  const onSheet: AffineMatrix = [
    cosine,
    sine,
    -sine,
    cosine,
    origin.x - (originPaper.x * cosine - originPaper.y * sine),
    origin.y - (originPaper.x * sine + originPaper.y * cosine),
  ];
  const { minX, minY, maxX, maxY } = field;
  const forms = new Map<string, PDFRef>();
  const drawn = underlay.forms.map(({ ref, matrix }, index) => {
    const name = `Plan${index}`;
    forms.set(name, ref);
    return `q ${matrixText(composeMatrices(matrix, onSheet))} cm /${name} Do Q`;
  });
  pen.operators(
    `${minX} ${minY} ${maxX - minX} ${maxY - minY} re W n\n${drawn.join('\n')}\n` +
      `/PlanVeil gs 1 1 1 rg ${minX} ${minY} ${maxX - minX} ${maxY - minY} re f`,
  );
  return forms;
};
