import type { LabelBox, LabelMove } from './labelLayout.ts';

interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

/** A text that stands further off than this, in heights of its line, needs a line to what it belongs to. */
const farLines = 1.6;

/**
 * The line from a text that had to make way to the place that it belongs to, as drawings have it; null where the text
 * stands so near that nobody asks. It leaves from the text's nearer edge.
 *
 * @param box the room of the text, in CSS pixels on the screen
 * @param move how far the text stands from where it would have stood, in CSS pixels
 * @param place what the text belongs to, in CSS pixels on the screen
 */
export const leaderLine = (
  box: LabelBox,
  move: LabelMove,
  place: ScreenPoint,
): { readonly from: ScreenPoint; readonly to: ScreenPoint } | null => {
  if (Math.hypot(move.dxPx, move.dyPx) < farLines * box.halfHeightPx * 2) return null;
  const dx = place.x - box.x;
  const dy = place.y - box.y;
  const along = dx * box.cos + dy * box.sin;
  const across = dy * box.cos - dx * box.sin;
  // Still under the text, whatever way it had to go: nothing to point at.
  if (Math.abs(along) <= box.halfLengthPx && Math.abs(across) <= box.halfHeightPx) return null;
  const onTextAlong = Math.max(-box.halfLengthPx, Math.min(box.halfLengthPx, along));
  const onTextAcross = Math.max(-box.halfHeightPx, Math.min(box.halfHeightPx, across));
  return {
    from: {
      x: box.x + box.cos * onTextAlong - box.sin * onTextAcross,
      y: box.y + box.sin * onTextAlong + box.cos * onTextAcross,
    },
    to: place,
  };
};
