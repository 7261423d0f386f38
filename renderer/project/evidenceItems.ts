import { paperPoint } from '../../src/geometry/point.ts';
import type { ReadAnswer } from '../../src/scale/readContract.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { DisplayItem, MarkOffset } from '../board/displayList.ts';

/** A stroke under the figure, cut in two: what is written and what is drawn do not meet. */
const apart: readonly (readonly MarkOffset[])[] = [
  [
    { xPx: -16, yPx: 9 },
    { xPx: -3, yPx: 9 },
  ],
  [
    { xPx: 3, yPx: 13 },
    { xPx: 16, yPx: 13 },
  ],
];

const corners = ([xMin, yMin, xMax, yMax]: readonly [number, number, number, number]) => [
  paperPoint(xMin, yMin),
  paperPoint(xMax, yMin),
  paperPoint(xMax, yMax),
  paperPoint(xMin, yMax),
];

/** What the sheet says of its scale, where it says it: dimensions that do not agree, and views as outlines. */
export const evidenceItems = (answer: ReadAnswer, unit: DisplayUnit): readonly DisplayItem[] => [
  ...(answer.dimensions?.disagreeing ?? []).map(
    (dimension, index): DisplayItem => ({
      kind: 'mark',
      id: `evidence/odd-${index}`,
      at: paperPoint(dimension.at[0], dimension.at[1]),
      strokes: apart,
      line: { tone: 'warning', widthPx: 2 },
      word: `drawn ${formatLength(dimension.drawnMm, { unit })}`,
      isHittable: false,
    }),
  ),
  ...((answer.scale.views?.length ?? 0) > 1 ? (answer.scale.views ?? []) : []).flatMap(
    (view, index): DisplayItem[] => [
      {
        kind: 'polygon',
        id: `evidence/view-${index}`,
        points: corners(view.bbox),
        line: { tone: 'scale', widthPx: 1.25, dashPx: [10, 4, 2, 4] },
        isHittable: false,
      },
      {
        kind: 'label',
        id: `evidence/view-${index}/label`,
        at: paperPoint(view.bbox[0], view.bbox[3]),
        text: `${view.name || `View ${index + 1}`}${view.scale.ratio === null ? '' : `, 1:${Math.round(view.scale.ratio * 100) / 100}`}`,
        tone: 'scale',
        align: 'start',
        isHittable: false,
      },
    ],
  ),
];
