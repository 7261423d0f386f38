import type { PaperPoint } from '../../src/geometry/point.ts';

/** How a place stands to what is drawn or was picked before. */
export type RelationKind = 'end' | 'crossing' | 'middle' | 'on-line' | 'square' | 'parallel' | 'in-line';

/** What caught a pick. */
export interface Relation {
  readonly kind: RelationKind;
  /** For the operator: `end`, `on a line, square to`. */
  readonly word: string;
  /** Direction on the paper that the relation goes by, anticlockwise from +x; null where it has none. */
  readonly alongRad: number | null;
  /** Whether a drawn line says where the place is; else only earlier picks and directions do. */
  readonly isDrawn: boolean;
  /** The earlier point that it stands in a relation to. */
  readonly towards: PaperPoint | null;
}

/** A line of the drawing under the hand. */
export interface LineUnderHand {
  /** As the linework numbers it: lines first, then curves. */
  readonly number: number;
  /** Null for a curve. */
  readonly alongRad: number | null;
}

/** A picked place. */
export interface Pick {
  readonly at: PaperPoint;
  /** Where the hand pointed before the place was caught. */
  readonly hand: PaperPoint;
  /** Standard uncertainty along either axis (k = 1), in points of 1/72 in on the paper. */
  readonly uncertaintyPt: number;
  /** Null for a free pick. */
  readonly relation: Relation | null;
  /** The nearest straight line within reach, else a curve, whether it caught the pick or something on it did. */
  readonly line: LineUnderHand | null;
}

/** The direction in which the next straight is held. */
export type Hold =
  /** Straight on from the last straight. */
  | { readonly kind: 'on' }
  /** Square to the last straight. */
  | { readonly kind: 'square' }
  /** Level or upright on the sheet as it is shown. */
  | { readonly kind: 'sheet' }
  /** In steps of 15 degrees from the last straight; from the sheet where there is none. */
  | { readonly kind: 'steps' }
  /** Along one direction on the paper, or its opposite: that of a drawn line, or one that was typed. */
  | { readonly kind: 'direction'; readonly alongRad: number };

/** A point that was picked earlier. */
export interface EarlierPoint {
  readonly at: PaperPoint;
  readonly uncertaintyPt: number;
}

/** What the next pick may stand in a relation to. */
export interface Guides {
  /** The point that the next straight starts from. */
  readonly anchor: PaperPoint | null;
  /** The point before the anchor: the two give the last straight. */
  readonly before: PaperPoint | null;
  /** Points that were picked earlier, to be caught themselves and to be in line with. */
  readonly points: readonly EarlierPoint[];
  readonly hold: Hold | null;
}

export const noGuides: Guides = { anchor: null, before: null, points: [], hold: null };

/** Whether two picks are one place. */
export const isSamePlace = (a: Pick, b: Pick): boolean => a.at.x === b.at.x && a.at.y === b.at.y;

/** The mark that shows a pick and what caught it. */
export const markOf = (pick: Pick) => ({ at: pick.at, relation: pick.relation, word: null });

/** The greatest uncertainty among picks, in points. */
export const worstUncertaintyPt = (picks: readonly Pick[]): number =>
  picks.reduce((worst, { uncertaintyPt }) => Math.max(worst, uncertaintyPt), 0);
