import type { DisplayItem, MarkItem, MarkOffset } from '../board/displayList.ts';
import type { RelationKind } from '../tools/pick.ts';
import type { ToolMark } from '../tools/tool.ts';

/**
 * Our marks for picks: a few short strokes that show how the place stands to the drawing, and its word. The strokes run
 * along and across the line in question (x along it) and leave the place itself free, so that the drawing can be seen.
 */

type Stroke = readonly MarkOffset[];

const stroke = (...points: readonly (readonly [number, number])[]): Stroke =>
  points.map(([xPx, yPx]) => ({ xPx, yPx }));

/** A free pick: two short strokes level, one upright. */
const free: readonly Stroke[] = [
  stroke([-11, 0], [-3, 0]),
  stroke([3, 0], [11, 0]),
  stroke([0, -11], [0, -3]),
];

const strokesOf: Readonly<Record<RelationKind, readonly Stroke[]>> = {
  /** The line runs up beside the place and is stopped behind it. */
  end: [stroke([-13, -5], [0, -5]), stroke([-13, 5], [0, 5]), stroke([6, -9], [6, 9])],
  /** Two lines pass on, each seen on both sides of the place. */
  crossing: [
    stroke([-13, -5], [-5, -5]),
    stroke([5, 5], [13, 5]),
    stroke([5, -13], [5, -5]),
    stroke([-5, 5], [-5, 13]),
  ],
  /** As much on the one side as on the other. */
  middle: [stroke([-14, -9], [-14, -5], [-3, -5]), stroke([3, -5], [14, -5], [14, -9])],
  /** The line runs on beside the place. */
  'on-line': [stroke([-12, -5], [12, -5])],
  /** One stroke along the line, one that stands on it. */
  square: [stroke([-11, 5], [11, 5]), stroke([0, -14], [0, -3])],
  /** Two strokes that go the same way, one longer. */
  parallel: [stroke([-13, -5], [13, -5]), stroke([-6, -10], [6, -10])],
  /** The place lies behind another on one line. */
  'in-line': [stroke([-15, 0], [-4, 0]), stroke([4, 0], [8, 0])],
};

/** The mark at the earlier point that a pick stands in a relation to: one stroke, across the direction. */
const earlier: readonly Stroke[] = [stroke([0, -7], [0, -3]), stroke([0, 3], [0, 7])];

const line = { tone: 'accent', widthPx: 1.75 } as const;

/** The items that show one mark of a tool. */
export const pickMark = ({ at, relation, word }: ToolMark, id: string): readonly DisplayItem[] => {
  const shownWord = word ?? relation?.word;
  const mark: MarkItem = {
    kind: 'mark',
    id,
    at,
    strokes: relation ? strokesOf[relation.kind] : free,
    ...(relation?.alongRad == null ? {} : { alongRad: relation.alongRad }),
    line,
    ...(shownWord ? { word: shownWord } : {}),
    isHittable: false,
  };
  const { towards, alongRad } = relation ?? { towards: null, alongRad: null };
  if (!towards || alongRad === null || (towards.x === at.x && towards.y === at.y)) return [mark];
  return [
    mark,
    { kind: 'mark', id: `${id}/earlier`, at: towards, strokes: earlier, alongRad, line, isHittable: false },
  ];
};
