import type { LabelBox, LabelMove } from './labelBox.ts';

interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

export interface LeaderLine {
  readonly from: ScreenPoint;
  readonly to: ScreenPoint;
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
export const leaderLine = (box: LabelBox, move: LabelMove, place: ScreenPoint): LeaderLine | null => {
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

/** Whether a line goes through the room of a text (clipped to it along both its sides; Liang and Barsky 1984, from memory). */
export const crosses = ({ from, to }: LeaderLine, box: LabelBox): boolean => {
  const inBox = ({ x, y }: ScreenPoint) => ({
    along: (x - box.x) * box.cos + (y - box.y) * box.sin,
    across: (y - box.y) * box.cos - (x - box.x) * box.sin,
  });
  const start = inBox(from);
  const end = inBox(to);
  let enters = 0;
  let leaves = 1;
  for (const [at, by, half] of [
    [start.along, end.along - start.along, box.halfLengthPx],
    [start.across, end.across - start.across, box.halfHeightPx],
  ] as const) {
    if (by === 0) {
      if (Math.abs(at) >= half) return false;
      continue;
    }
    const one = (-half - at) / by;
    const other = (half - at) / by;
    enters = Math.max(enters, Math.min(one, other));
    leaves = Math.min(leaves, Math.max(one, other));
  }
  return enters < leaves;
};
