import { type DisplayUnit, formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';
import type { DisplayItem, MarkOffset } from '../board/displayList.ts';
import type { ToolView } from '../tools/tool.ts';

/** Our pick mark: two short strokes that leave the place itself free, so that the drawing under it can be seen. */
const pickStrokes: readonly (readonly MarkOffset[])[] = [
  [
    { xPx: -11, yPx: 0 },
    { xPx: -3, yPx: 0 },
  ],
  [
    { xPx: 3, yPx: 0 },
    { xPx: 11, yPx: 0 },
  ],
  [
    { xPx: 0, yPx: -11 },
    { xPx: 0, yPx: -3 },
  ],
];

/** What a tool is drawing, as items over the sheet. */
export const toolItems = (view: ToolView, unit: DisplayUnit): readonly DisplayItem[] => [
  ...view.lines.flatMap((line, index): DisplayItem[] => {
    const drawn: DisplayItem = {
      kind: 'polyline',
      id: `tool/line-${index}`,
      points: [line.from, line.to],
      isHittable: false,
      line: { tone: 'accent', widthPx: 2, ...(line.sure ? {} : { dashPx: [7, 4] }) },
    };
    if (line.lengthMm === undefined) return [drawn];
    return [
      drawn,
      {
        kind: 'label',
        id: `tool/length-${index}`,
        at: {
          ...line.from,
          x: (line.from.x + line.to.x) / 2,
          y: (line.from.y + line.to.y) / 2,
        },
        text: formatLength(line.lengthMm, { unit }),
        ...(line.plusMinusMm === undefined
          ? {}
          : { quietText: ` ${formatPlusMinus(line.plusMinusMm, { unit })}` }),
        tone: 'accent',
        isStrong: true,
        sizePx: 13,
        alongRad: Math.atan2(line.to.y - line.from.y, line.to.x - line.from.x),
        shift: {
          directionRad: Math.atan2(line.to.y - line.from.y, line.to.x - line.from.x) + Math.PI / 2,
          px: 12,
        },
        isHittable: false,
      },
    ];
  }),
  ...view.marks.map(
    (mark, index): DisplayItem => ({
      kind: 'mark',
      id: `tool/mark-${index}`,
      at: mark.at,
      strokes: pickStrokes,
      line: { tone: 'accent', widthPx: 1.75 },
      ...(mark.word ? { word: mark.word } : {}),
      isHittable: false,
    }),
  ),
];
