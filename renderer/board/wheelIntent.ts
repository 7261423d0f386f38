/** What a turn of the wheel asks for. */
export type WheelIntent =
  | { readonly kind: 'zoom'; readonly factor: number }
  | { readonly kind: 'pan'; readonly dxPx: number; readonly dyPx: number };

/** The fields of a `WheelEvent` that tell a mouse wheel, a pinch and a two-finger scroll apart. */
export interface WheelInput {
  readonly deltaX: number;
  readonly deltaY: number;
  /** 0 pixels, 1 lines, 2 pages (UI Events, WheelEvent.deltaMode). */
  readonly deltaMode: number;
  /** 120 a notch of a mouse wheel whatever the scale of the screen; not in every browser. */
  readonly wheelDeltaY?: number;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly timeStamp: number;
}

/** `auto` tells a mouse wheel (zooms) from a trackpad's two fingers (pan). */
export type WheelMode = 'auto' | 'zoom' | 'pan';

/** Events closer together than this belong to one movement and are read alike. */
const SAME_MOVEMENT_MS = 180;
const PX_PER_LINE = 16;
const PX_PER_PAGE = 400;

/**
 * Makes a reader of wheel events. Browsers don't say which device scrolled, so a movement is read by its first event:
 * a mouse wheel steps by whole notches along one axis; two fingers move by small or two-axis amounts. A trackpad pinch
 * arrives as a wheel with ctrl held (UI Events; browsers agree on it in practice).
 */
export function createWheelReader(): (input: WheelInput, mode: WheelMode) => WheelIntent {
  let last: { readonly timeStamp: number; readonly isZoom: boolean } | null = null;
  return (input, mode) => {
    const unit = input.deltaMode === 1 ? PX_PER_LINE : input.deltaMode === 2 ? PX_PER_PAGE : 1;
    const dx = input.deltaX * unit;
    const dy = input.deltaY * unit;
    if (input.ctrlKey || input.metaKey) return zoom(dy, isNotch(input) ? 0.0018 : 0.01);
    const isSameMovement = last !== null && input.timeStamp - last.timeStamp < SAME_MOVEMENT_MS;
    const isZoom =
      mode === 'auto'
        ? !input.shiftKey && (isSameMovement && last ? last.isZoom : isNotch(input))
        : mode === 'zoom';
    last = { timeStamp: input.timeStamp, isZoom };
    if (isZoom) return zoom(dy === 0 ? dx : dy, 0.0018);
    // Shift turns a one-axis wheel sideways; some systems have swapped the axes already.
    if (input.shiftKey && dx === 0) return { kind: 'pan', dxPx: -dy, dyPx: 0 };
    return { kind: 'pan', dxPx: -dx, dyPx: -dy };
  };
}

function isNotch(input: WheelInput): boolean {
  if (input.deltaMode !== 0) return true;
  if (input.deltaX !== 0) return false;
  const notches = Math.abs(input.wheelDeltaY ?? 0) / 120;
  if (notches >= 1 && Number.isInteger(notches)) return true;
  return Math.abs(input.deltaY) >= 50 && Number.isInteger(input.deltaY);
}

/** One notch (100 px) is about a fifth larger or smaller; a fling is held to four times in one event. */
function zoom(deltaPx: number, perPx: number): WheelIntent {
  const factor = Math.exp(-deltaPx * perPx);
  return { kind: 'zoom', factor: Math.min(4, Math.max(0.25, factor)) };
}
