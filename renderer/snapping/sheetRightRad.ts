import { radiansOf } from '../../src/units/angle.ts';
import type { Board } from '../board/board.ts';

/**
 * Direction on the paper that points to the right on the sheet as it is shown. /Rotate turns the page clockwise
 * (ISO 32000-1 table 30), so that what points right was turned anticlockwise by as much.
 */
export const sheetRightRad = (board: Board): number => radiansOf(board.view.get()?.frame.rotationDeg ?? 0);
