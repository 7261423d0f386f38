import { pointBetween } from '../../src/geometry/vector.ts';
import { flattenedPart, middleAlong, type RunPath } from '../../src/measure/runPath.ts';
import { type DisplayUnit, formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';
import type { DisplayItem, MarkOffset } from '../board/displayList.ts';
import type { ToolLine, ToolView } from '../tools/tool.ts';
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

const asPath = ({ from, to, through }: ToolLine): RunPath => ({ frontLine: [from, to], bends: [through] });

/** The +/- of a line's length, and the radius of one that is an arc. */
const quietTextOf = ({ plusMinusMm, radiusMm }: ToolLine, unit: DisplayUnit): string =>
  [
    ...(plusMinusMm === undefined ? [] : [formatPlusMinus(plusMinusMm, { unit })]),
    ...(radiusMm === undefined ? [] : [`R ${formatLength(radiusMm, { unit })}`]),
  ]
    .map((text) => ` ${text}`)
    .join(' ');

/** What a tool is drawing, as items over the sheet. */
export const toolItems = (view: ToolView, unit: DisplayUnit): readonly DisplayItem[] => [
  ...view.lines.flatMap((line, index): DisplayItem[] => {
    const drawn: DisplayItem = {
      kind: 'polyline',
      id: `tool/line-${index}`,
      points: flattenedPart(asPath(line), 0),
      isHittable: false,
      line: { tone: 'accent', widthPx: 2, ...(line.sure ? {} : { dashPx: [7, 4] }) },
    };
    if (line.lengthMm === undefined) return [drawn];
    const { at, along } = middleAlong(asPath(line), 0);
    const alongRad = Math.atan2(along.y, along.x);
    // Outside of an arc: its text must not lie across it.
    const chordMiddle = pointBetween(line.from, line.to, 0.5);
    const isArcBelow = along.x * (at.y - chordMiddle.y) - along.y * (at.x - chordMiddle.x) < -1e-9;
    return [
      drawn,
      {
        kind: 'label',
        id: `tool/length-${index}`,
        at,
        text: formatLength(line.lengthMm, { unit }),
        quietText: quietTextOf(line, unit),
        tone: 'accent',
        isStrong: true,
        sizePx: 13,
        alongRad,
        shift: { directionRad: alongRad + (isArcBelow ? -Math.PI : Math.PI) / 2, px: 12 },
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
