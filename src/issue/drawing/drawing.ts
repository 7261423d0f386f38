import type { Point } from '../../geometry/point.ts';
import type { DrawnPath } from './drawnPath.ts';

/**
 * A technical drawing as plain data. Shapes are in millimetres of the room (x to the right, y up); text and the
 * distances that belong to it are in millimetres of paper, so that they keep their size at any scale. A `Drawing` has
 * no scale of its own: `settleDrawing` gives it one and finds every text its place. Screens and PDF writers consume
 * what that returns.
 */

/** Line widths, wide to narrow 2:1 and below, from the series 0.13, 0.18, 0.25, 0.35, 0.5 … mm of ISO 128-2 (from memory). */
export type LineWeight = 'thick' | 'medium' | 'thin';
export const lineWeightMm: Readonly<Record<LineWeight, number>> = { thick: 0.5, medium: 0.25, thin: 0.18 };

/**
 * By how much the lines of a drawing at 1 : `ratio` are finer than at 1:20: small scales take a narrower line group, or
 * the lines of a thing run together.
 */
export const lineGroupShare = (ratio: number): number => (ratio <= 45 ? 1 : ratio <= 75 ? 0.7 : 0.5);

/** Continuous for what is seen, dashed for what is hidden or moves, chain (long dash, dot) for folds and axes: ISO 128-2. */
export type LineType = 'continuous' | 'dashed' | 'chain';
/** Dashes and gaps in mm of paper. */
export const lineDashMm: Readonly<Record<LineType, readonly number[]>> = {
  continuous: [],
  dashed: [1.2, 0.7],
  chain: [3.2, 0.6, 0.4, 0.6],
};

/** What a fill stands for; whoever shows the drawing chooses the tint. */
export type FillClass = 'top' | 'face' | 'panel' | 'recess' | 'ground' | 'solid' | 'content';

/** A pattern of lines, each told apart from the others without colour. */
export type HatchKind =
  | 'section'
  | 'blocked'
  | 'closes'
  | 'filler'
  | 'made-to-measure'
  | 'insulation'
  | 'bay'
  | 'low';

export interface Stroke {
  readonly weight: LineWeight;
  readonly type: LineType;
}

/** One path with its line, fill and hatch; drawn in the order of the list. */
export interface Shape<Part extends string = string> {
  readonly path: DrawnPath;
  readonly stroke?: Stroke;
  readonly fill?: FillClass;
  readonly hatch?: HatchKind;
  readonly part?: Part;
  /** What the shape shows, such as `foot`, `frame` or `beer-taps`. */
  readonly tag?: string;
}

/** A text that belongs inside a width of the drawing, broken into lines where it must be. */
export interface Note<Part extends string = string> {
  /** Middle of the text, room mm. */
  readonly at: Point;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly text: string;
  readonly part?: Part;
  /** Greater stays where not all find room. */
  readonly rank: number;
  /** Whether it is led out above the drawing where it finds no room in its place; else it is left out. */
  readonly isNeeded: boolean;
}

/** A text above the drawing, tied by a leader to the place it speaks of. */
export interface Callout<Part extends string = string> {
  readonly at: Point;
  /** A mark, set in a frame before the text. */
  readonly mark?: string;
  readonly text: string;
  readonly part?: Part;
  readonly rank: number;
  /** How its leader ends (ISO 128-2): with a dot within an outline, with nothing on a line. */
  readonly leader: 'dot' | 'bare';
}

/** One length of a dimension chain. */
export interface ChainLink<Part extends string = string> {
  readonly fromMm: number;
  readonly toMm: number;
  /** Empty: the length is ticked, not written. */
  readonly text: string;
  /** Follows the text in a lighter weight: a unit, a +/-. */
  readonly quietText?: string;
  /** Set in a frame above the length. */
  readonly mark?: string;
  readonly part?: Part;
  readonly rank: number;
}

/** A dimension chain under the drawing; the first lies nearest. */
export interface DimensionChain<Part extends string = string> {
  readonly links: readonly ChainLink<Part>[];
}

/** A height above the floor, written at the left of the drawing. */
export interface Level {
  readonly heightMm: number;
  readonly word: string;
  readonly text: string;
  /** True of the drawing's left end alone, such as a floor that falls. */
  readonly isLeftEnds?: boolean;
}

/** A thing of the drawing that can be pointed at, in the order in which it is read. */
export interface DrawnPart<Part extends string = string> {
  readonly part: Part;
  /** In words, for those who can't see the drawing. */
  readonly label: string;
  /** Its outline, room mm; a later part lies over an earlier one. */
  readonly box: {
    readonly left: number;
    readonly right: number;
    readonly bottom: number;
    readonly top: number;
  };
}

/** Where a part of a drawing ends before the whole does, on its own scale of lengths. */
export interface DrawingCut {
  readonly left?: number;
  readonly right?: number;
}

export interface Drawing<Part extends string = string> {
  /** What the drawing shows. */
  readonly title: string;
  /** From where, and how its lengths are written. */
  readonly caption: string;
  /** Words beside the drawing: what lies at its left and its right end. */
  readonly leftEnd: string;
  readonly rightEnd: string;
  /** Extent of the shapes, room mm; the floor is at 0. */
  readonly leftMm: number;
  readonly rightMm: number;
  readonly topMm: number;
  /** Where the thing shown turns a corner; a long drawing is best parted there. */
  readonly folds?: readonly number[];
  /** A part of a longer drawing: what its shapes are cut off at. A side without a bound is the drawing's own end. */
  readonly cutAt?: DrawingCut;
  readonly shapes: readonly Shape<Part>[];
  readonly notes: readonly Note<Part>[];
  readonly callouts: readonly Callout<Part>[];
  readonly chains: readonly DimensionChain<Part>[];
  readonly levels: readonly Level[];
  readonly parts: readonly DrawnPart<Part>[];
}
