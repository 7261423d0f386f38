import type { Board } from './board.ts';
import { screenPoint } from './screenPoint.ts';
import {
  keptInSight,
  PRINT_SIZE_PX_PER_POINT,
  panBy,
  type ViewTransform,
  wholeSheet,
  zoomAbout,
  zoomTo,
} from './viewTransform.ts';

const STEP_PX = 64;
const ZOOM_STEP = 1.25;

/** The fields of a `KeyboardEvent` that move the view. */
interface KeyInput {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

/**
 * The view after a key: `+` `-` zoom about the middle, `0` print size, Home the whole sheet, arrows pan (with shift a
 * box at a time). Null where the key does not move the view.
 */
export function viewAfterKey(view: ViewTransform, input: KeyInput): ViewTransform | null {
  if (input.altKey || ((input.ctrlKey || input.metaKey) && !'+-=0'.includes(input.key))) return null;
  const middle = screenPoint(view.widthPx / 2, view.heightPx / 2);
  const stepX = input.shiftKey ? view.widthPx * 0.8 : STEP_PX;
  const stepY = input.shiftKey ? view.heightPx * 0.8 : STEP_PX;
  switch (input.key) {
    case '+':
    case '=':
      return zoomAbout(view, middle, ZOOM_STEP);
    case '-':
    case '_':
      return zoomAbout(view, middle, 1 / ZOOM_STEP);
    case '0':
      return zoomTo(view, middle, PRINT_SIZE_PX_PER_POINT);
    case 'Home':
      return wholeSheet(view.frame, view);
    case 'ArrowLeft':
      return keptInSight(panBy(view, stepX, 0));
    case 'ArrowRight':
      return keptInSight(panBy(view, -stepX, 0));
    case 'ArrowUp':
      return keptInSight(panBy(view, 0, stepY));
    case 'ArrowDown':
      return keptInSight(panBy(view, 0, -stepY));
    default:
      return null;
  }
}

/** Moves the view as a key would, where something else than the key asks for it; without a view, not at all. */
export function moveByKey(board: Board, key: string): void {
  const view = board.view.get();
  const plain = { shiftKey: false, ctrlKey: false, metaKey: false, altKey: false };
  const next = view && viewAfterKey(view, { key, ...plain });
  if (next) board.view.set(next);
}
