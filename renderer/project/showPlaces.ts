import type { PaperPoint } from '../../src/geometry/point.ts';
import type { Board } from '../board/board.ts';
import { screenPoint } from '../board/screenPoint.ts';
import { showing, zoomTo } from '../board/viewTransform.ts';

/** Nearer than this a single place would fill the board with one letter, in CSS pixels per point. */
const nearestPxPerPoint = 4;
const marginPx = 120;

/** Brings places of the sheet into sight, with what surrounds them. */
export const showPlaces = (board: Board, points: readonly PaperPoint[]): void => {
  const view = board.view.get();
  if (!view) return;
  const shown = showing(view, points, marginPx);
  const middle = screenPoint(shown.widthPx / 2, shown.heightPx / 2);
  board.view.set(shown.pxPerPoint > nearestPxPerPoint ? zoomTo(shown, middle, nearestPxPerPoint) : shown);
};
