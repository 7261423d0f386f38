import { createFrameLoop, type FrameLoop } from './frameLoop.ts';
import type { LabelBox } from './labelBox.ts';
import type { ScreenPoint } from './screenPoint.ts';
import type { SheetPicture } from './sheetPicture.ts';
import { isSameView, type ViewTransform } from './viewTransform.ts';

/** A value with listeners. */
export interface Watched<T> {
  readonly get: () => T;
  readonly set: (next: T) => void;
  /** Calls `listener` after each change; returns how to stop. */
  readonly subscribe: (listener: () => void) => () => void;
}

/**
 * What the parts of one board share: how the sheet lies on the screen, the drawn picture, and the frame loop.
 * It lives beside React so that a pan of sixty frames a second renders no component.
 */
export interface Board {
  /** How the sheet lies on the screen; null until a sheet view has been laid out. */
  readonly view: Watched<ViewTransform | null>;
  /** Where the pointer is over the board; null while it is elsewhere. */
  readonly pointer: Watched<ScreenPoint | null>;
  /** The sheet as drawn so far; null until there is one. */
  readonly picture: Watched<SheetPicture | null>;
  /** Where the texts of each layer over the sheet lie, by the layer's order: later layers keep off earlier ones. */
  readonly texts: Map<number, readonly LabelBox[]>;
  readonly frames: FrameLoop;
}

/** Makes the shared state of one board. Keep it in `useState(createBoard)` or outside React. */
export function createBoard(): Board {
  return {
    view: watched<ViewTransform | null>(
      null,
      (a, b) => a === b || (a !== null && b !== null && isSameView(a, b)),
    ),
    pointer: watched<ScreenPoint | null>(null),
    picture: watched<SheetPicture | null>(null, () => false),
    texts: new Map(),
    frames: createFrameLoop(),
  };
}

/** Makes a watched value; listeners hear of a change unless `isSame` says it is none. */
export function watched<T>(initial: T, isSame: (a: T, b: T) => boolean = Object.is): Watched<T> {
  let value = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set(next) {
      if (isSame(value, next)) return;
      value = next;
      for (const listener of [...listeners]) listener();
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
  };
}
