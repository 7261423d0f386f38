import type { DisplayItem, DisplayList } from './displayList.ts';

const RANK = { polygon: 0, polyline: 0, segments: 0, mark: 1, label: 2 } as const;

/** The order of drawing: shapes as listed, then marks, then labels, so that text is never covered by a hatch. */
export function inDrawingOrder(list: DisplayList): readonly DisplayItem[] {
  return [...list].sort((a, b) => RANK[a.kind] - RANK[b.kind]);
}
