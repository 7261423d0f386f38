/** The room that a label's text takes on the screen: a turned rectangle, in CSS pixels from the sheet's corner. */
export interface LabelBox {
  readonly x: number;
  readonly y: number;
  readonly cos: number;
  readonly sin: number;
  readonly halfLengthPx: number;
  readonly halfHeightPx: number;
}

/** How far a label stands from the place that its item names, in CSS pixels on the screen. */
export interface LabelMove {
  readonly dxPx: number;
  readonly dyPx: number;
  /** Whether a line leads from the label to what it belongs to. */
  readonly hasLeader?: true;
}
