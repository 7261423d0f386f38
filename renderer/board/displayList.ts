import type { PaperPoint } from '../../src/geometry/point.ts';

/**
 * What lies over a sheet, as plain data: shapes in paper points, strokes and text in CSS pixels so that they keep their
 * weight at any zoom. Items are drawn in order, shapes first, then marks, then labels.
 */
export type DisplayList = readonly DisplayItem[];

export type DisplayItem = PolylineItem | SegmentsItem | PolygonItem | LabelItem | MarkItem;

/** How an item stands out. Selected items show it by an outline and handles, not by colour alone. */
export type ItemState = 'normal' | 'hover' | 'selected';

/** What a colour means; `markPalette` holds the colours. A tone never stands alone: add hatch, dash, letter or shape. */
export type Tone =
  | 'ink'
  | 'paper'
  | 'quiet'
  | 'accent'
  | 'front'
  | 'back'
  | 'module'
  | 'station'
  | 'filler'
  | 'made-to-measure'
  | 'blocked'
  | 'opening'
  | 'bay'
  | 'scale'
  | 'warning';

/** A line pattern; each kind of area has its own, told apart without colour. */
export type HatchKind =
  | 'closes'
  | 'filler'
  | 'made-to-measure'
  | 'blocked'
  | 'opening'
  | 'bay'
  | 'low-section';

interface ItemBase {
  /** Unique in the list. */
  readonly id: string;
  /** Default `normal`. */
  readonly state?: ItemState | undefined;
  /** Whether `hitTest` finds it. Default true. */
  readonly isHittable?: boolean | undefined;
}

export interface LineStyle {
  readonly tone: Tone;
  readonly widthPx: number;
  /** Lengths of dashes and gaps, in CSS pixels. Default solid. */
  readonly dashPx?: readonly number[] | undefined;
  /** 0 to 1. Default 1. */
  readonly opacity?: number | undefined;
}

/** An open line through paper points. */
export interface PolylineItem extends ItemBase {
  readonly kind: 'polyline';
  readonly points: readonly PaperPoint[];
  readonly line: LineStyle;
  /** Draws a small square at each point while the item is selected. Default false. */
  readonly hasHandles?: boolean | undefined;
  /** Where the squares are drawn, when that is not at each point: an arc has many points and two ends. */
  readonly handlePoints?: readonly PaperPoint[] | undefined;
}

/** Many lines at once, such as another sheet's linework: painted as one path, never hit. */
export interface SegmentsItem extends ItemBase {
  readonly kind: 'segments';
  /** x0, y0, x1, y1 of each, in paper points. */
  readonly ends: ArrayLike<number>;
  readonly line: LineStyle;
}

/** A closed area; `holes` are cut out of it. */
export interface PolygonItem extends ItemBase {
  readonly kind: 'polygon';
  readonly points: readonly PaperPoint[];
  readonly holes?: readonly (readonly PaperPoint[])[] | undefined;
  /** A wash of colour; `opacity` 0 to 1, default 0.12. */
  readonly fill?: { readonly tone: Tone; readonly opacity?: number | undefined } | undefined;
  readonly hatch?: { readonly kind: HatchKind; readonly tone: Tone } | undefined;
  readonly line?: LineStyle | undefined;
  readonly hasHandles?: boolean | undefined;
}

/** Text on the sheet, haloed, upright and never mirrored however the page is turned. */
export interface LabelItem extends ItemBase {
  readonly kind: 'label';
  readonly at: PaperPoint;
  readonly text: string;
  /** Follows the text in a lighter weight: a unit, a +/-. */
  readonly quietText?: string | undefined;
  /** Default 12. */
  readonly sizePx?: number | undefined;
  /** Default false: weight 400. */
  readonly isStrong?: boolean | undefined;
  /** Default `ink`. */
  readonly tone?: Tone | undefined;
  /** Direction on the paper that the text follows, anticlockwise from +x; absent: level on the screen. */
  readonly alongRad?: number | undefined;
  /** Moves the text from `at` in a direction on the paper by CSS pixels. */
  readonly shift?: { readonly directionRad: number; readonly px: number } | undefined;
  /** Which part of the text lies at the place, as read. Default `middle`. */
  readonly align?: 'start' | 'middle' | 'end' | undefined;
  /** Length of paper (user-space units) that the text must find room in; hidden while it does not. */
  readonly roomUnits?: number | undefined;
  /** Height of paper, across the text, that one line must find room in; hidden while it does not. */
  readonly roomAcrossUnits?: number | undefined;
}

/** A stroke or point in CSS pixels, y down, relative to a mark's place. */
export interface MarkOffset {
  readonly xPx: number;
  readonly yPx: number;
}

/** Short strokes of constant size at a place, such as a snap mark, with its word. */
export interface MarkItem extends ItemBase {
  readonly kind: 'mark';
  readonly at: PaperPoint;
  /** Each stroke is a chain of offsets; x runs along `alongRad` where that is given. */
  readonly strokes: readonly (readonly MarkOffset[])[];
  /** Direction on the paper of the strokes' x axis, anticlockwise from +x; absent: level on the screen. */
  readonly alongRad?: number | undefined;
  readonly line: LineStyle;
  /** A word beside the mark. */
  readonly word?: string | undefined;
}
