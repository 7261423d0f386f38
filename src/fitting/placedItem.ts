/** A piece in place that others must keep clear of, in micrometres along the front of its straight. */
export interface PlacedItem {
  readonly item: string;
  readonly fromUm: number;
  readonly toUm: number;
}
