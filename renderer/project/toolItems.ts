import { type DisplayUnit, formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';
import type { DisplayItem, MarkOffset } from '../board/displayList.ts';
import type { ToolView } from '../tools/tool.ts';
import { pickMark } from './pickMark.ts';

/** A handle: two strokes across the line that it can be dragged along, closed to a box while it is the chosen one. */
const handleStrokes = (isChosen: boolean): readonly (readonly MarkOffset[])[] => {
  const [near, far] = [4, 8];
  const sides = [-near, near].map((xPx) => [
    { xPx, yPx: -far },
    { xPx, yPx: far },
  ]);
  if (!isChosen) return sides;
  return [
    ...sides,
    ...[-far, far].map((yPx) => [
      { xPx: -near, yPx },
      { xPx: near, yPx },
    ]),
  ];
};

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
  ...view.handles.map(
    ({ at, alongRad, isChosen }, index): DisplayItem => ({
      kind: 'mark',
      id: `tool/handle-${index}`,
      at,
      alongRad,
      strokes: handleStrokes(isChosen),
      line: { tone: 'accent', widthPx: isChosen ? 2.25 : 1.5 },
      isHittable: false,
    }),
  ),
  ...view.marks.flatMap((mark, index) => pickMark(mark, `tool/mark-${index}`)),
];
