import type { PaperPoint } from '../../src/geometry/point.ts';
import type { Board } from './board.ts';
import { viewAfterKey } from './keyMove.ts';
import { type ScreenPoint, screenPoint } from './screenPoint.ts';
import { keptInSight, panBy, toPaper, type ViewTransform, zoomAbout } from './viewTransform.ts';
import { createWheelReader, type WheelMode } from './wheelIntent.ts';

/** What the pointer did, for tools: never a gesture that moves the view. */
export interface BoardPointer {
  /** `cancel`: the press turned into a pan or pinch, or was taken away; forget it. `leave`: the pointer left the board. */
  readonly type: 'down' | 'move' | 'up' | 'cancel' | 'leave';
  readonly screen: ScreenPoint;
  readonly paper: PaperPoint;
  readonly pointerType: string;
  /** 0 main, 2 secondary; -1 on a move without a press. */
  readonly button: number;
  /** Consecutive clicks at this place (2 for a double click) on `down`; 0 otherwise. */
  readonly clicks: number;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

export interface GestureOptions {
  readonly leftDrag: () => 'pan' | 'tool';
  readonly wheelMode: () => WheelMode;
  readonly onPointer: (pointer: BoardPointer) => void;
  /** Called when panning by hand starts and stops, for the cursor. */
  readonly onGrab: (isGrabbed: boolean) => void;
}

type Grip =
  | { readonly kind: 'none' }
  | { readonly kind: 'tool'; readonly pointerId: number }
  | { readonly kind: 'pan'; readonly pointerId: number }
  | { readonly kind: 'pinch' };

/**
 * Listens on the board's element and moves the view: wheel, trackpad, pinch, drags and keys. Presses that are no
 * gesture go to `onPointer`. Returns how to stop listening.
 */
export function attachBoardGestures(element: HTMLElement, board: Board, options: GestureOptions): () => void {
  const readWheel = createWheelReader();
  const stopListening = new AbortController();
  const touches = new Map<number, ScreenPoint>();
  let grip: Grip = { kind: 'none' };
  let lastAt = screenPoint(0, 0);
  let isSpaceHeld = false;

  const at = (event: MouseEvent): ScreenPoint => {
    const box = element.getBoundingClientRect();
    return screenPoint(
      event.clientX - box.left - element.clientLeft,
      event.clientY - box.top - element.clientTop,
    );
  };
  const move = (change: (view: ViewTransform) => ViewTransform): void => {
    const view = board.view.get();
    if (view !== null) board.view.set(keptInSight(change(view)));
  };
  const tell = (type: BoardPointer['type'], event: PointerEvent, screen = at(event)): void => {
    const view = board.view.get();
    if (view === null) return;
    options.onPointer({
      type,
      screen,
      paper: toPaper(view, screen),
      pointerType: event.pointerType,
      button: event.button,
      clicks: type === 'down' ? countClicks(event, screen) : 0,
      shiftKey: event.shiftKey,
      ctrlKey: event.ctrlKey,
      altKey: event.altKey,
      metaKey: event.metaKey,
    });
  };
  const countClicks = createClickCounter();
  const hold = (next: Grip): void => {
    if (next.kind === grip.kind) return;
    const wasGrabbed = grip.kind === 'pan';
    grip = next;
    if (wasGrabbed !== (next.kind === 'pan')) options.onGrab(next.kind === 'pan');
  };

  const onWheel = (event: WheelEvent): void => {
    if (isFromControl(event, element)) return;
    event.preventDefault();
    const intent = readWheel(event, options.wheelMode());
    if (intent.kind === 'zoom') move((view) => zoomAbout(view, at(event), intent.factor));
    else move((view) => panBy(view, intent.dxPx, intent.dyPx));
  };

  const onPointerDown = (event: PointerEvent): void => {
    if (isFromControl(event, element)) return;
    if (document.activeElement !== element) element.focus({ preventScroll: true });
    const screen = at(event);
    if (event.pointerType === 'touch') {
      touches.set(event.pointerId, screen);
      capture(element, event.pointerId);
      if (touches.size === 2) {
        if (grip.kind === 'tool') tell('cancel', event, screen);
        hold({ kind: 'pinch' });
        return;
      }
      if (touches.size > 2) return;
    }
    if (grip.kind !== 'none') return;
    lastAt = screen;
    const isPan = event.button === 1 || (event.button === 0 && (isSpaceHeld || options.leftDrag() === 'pan'));
    if (event.button === 1) event.preventDefault();
    capture(element, event.pointerId);
    hold({ kind: isPan ? 'pan' : 'tool', pointerId: event.pointerId });
    // A tool that lets the main button pan still hears of the press: it may select by a click that does not move.
    if (!isPan || (event.button === 0 && !isSpaceHeld)) tell('down', event, screen);
  };

  const onPointerMove = (event: PointerEvent): void => {
    const screen = at(event);
    const isElsewhere = grip.kind === 'none' && isFromControl(event, element);
    board.pointer.set(isElsewhere ? null : screen);
    if (isElsewhere) return;
    if (grip.kind === 'pinch') {
      if (touches.has(event.pointerId)) pinch(event.pointerId, screen);
      return;
    }
    if (touches.has(event.pointerId)) touches.set(event.pointerId, screen);
    if (grip.kind === 'pan' && grip.pointerId === event.pointerId) {
      move((view) => panBy(view, screen.x - lastAt.x, screen.y - lastAt.y));
      lastAt = screen;
    }
    tell('move', event, screen);
  };

  const pinch = (pointerId: number, screen: ScreenPoint): void => {
    const before = touches.get(pointerId);
    const other = [...touches].find(([id]) => id !== pointerId)?.[1];
    touches.set(pointerId, screen);
    if (before === undefined || other === undefined) return;
    const spread = Math.hypot(before.x - other.x, before.y - other.y);
    const spreadNow = Math.hypot(screen.x - other.x, screen.y - other.y);
    const middle = screenPoint((before.x + other.x) / 2, (before.y + other.y) / 2);
    const middleNow = screenPoint((screen.x + other.x) / 2, (screen.y + other.y) / 2);
    move((view) =>
      panBy(
        spread > 1 ? zoomAbout(view, middle, spreadNow / spread) : view,
        middleNow.x - middle.x,
        middleNow.y - middle.y,
      ),
    );
  };

  const onPointerEnd = (event: PointerEvent): void => {
    touches.delete(event.pointerId);
    if (grip.kind === 'pinch') {
      if (touches.size === 0) hold({ kind: 'none' });
      return;
    }
    if (grip.kind === 'none' || grip.pointerId !== event.pointerId) return;
    hold({ kind: 'none' });
    tell(event.type === 'pointercancel' ? 'cancel' : 'up', event);
  };

  const onPointerLeave = (event: PointerEvent): void => {
    board.pointer.set(null);
    tell('leave', event);
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.target !== element) return;
    if (event.key === ' ') {
      isSpaceHeld = true;
      element.dataset['panning'] = 'ready';
      event.preventDefault();
      return;
    }
    const view = board.view.get();
    const next = view && viewAfterKey(view, event);
    if (next === null) return;
    event.preventDefault();
    board.view.set(next);
  };
  const releaseSpace = (): void => {
    isSpaceHeld = false;
    delete element.dataset['panning'];
  };

  const listen = { signal: stopListening.signal };
  element.addEventListener('wheel', onWheel, { ...listen, passive: false });
  element.addEventListener('pointerdown', onPointerDown, listen);
  element.addEventListener('pointermove', onPointerMove, listen);
  element.addEventListener('pointerup', onPointerEnd, listen);
  element.addEventListener('pointercancel', onPointerEnd, listen);
  element.addEventListener('pointerleave', onPointerLeave, listen);
  element.addEventListener('keydown', onKeyDown, listen);
  element.addEventListener('keyup', (event) => event.key === ' ' && releaseSpace(), listen);
  element.addEventListener('blur', releaseSpace, listen);
  element.addEventListener('auxclick', (event) => event.preventDefault(), listen);
  return () => stopListening.abort();
}

function capture(element: HTMLElement, pointerId: number): void {
  // A pointer that has gone in the meantime (or that a test made up) can't be captured; the gesture works without.
  try {
    element.setPointerCapture(pointerId);
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== 'NotFoundError') throw error;
  }
}

function isFromControl(event: Event, board: HTMLElement): boolean {
  return (
    event.target instanceof Element &&
    event.target !== board &&
    event.target.closest('button, input, select, textarea, a, [data-board-control]') !== null
  );
}

function createClickCounter(): (event: PointerEvent, screen: ScreenPoint) => number {
  let last: { readonly time: number; readonly screen: ScreenPoint; readonly clicks: number } | null = null;
  return (event, screen) => {
    const isRepeat =
      last !== null &&
      event.timeStamp - last.time < 400 &&
      Math.hypot(screen.x - last.screen.x, screen.y - last.screen.y) < 5;
    const clicks = isRepeat && last ? last.clicks + 1 : 1;
    last = { time: event.timeStamp, screen, clicks };
    return clicks;
  };
}
