import { type PointerEvent, type RefObject, useEffect, useRef } from 'react';

/** A press that moves less than this is a click, CSS px. */
const clickPx = 4;

interface Panning {
  readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerUp: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerCancel: (event: PointerEvent<HTMLElement>) => void;
}

/** Moves what a scrolling element shows by dragging and by the wheel; with Ctrl or a pinch the wheel zooms. */
export const usePanning = (
  scroller: RefObject<HTMLElement | null>,
  zoomBy: (steps: number, atPx: number) => void,
): Panning => {
  const drag = useRef<{
    readonly x: number;
    readonly y: number;
    readonly left: number;
    readonly top: number;
  } | null>(null);
  const zoom = useRef(zoomBy);
  useEffect(() => {
    zoom.current = zoomBy;
  });

  useEffect(() => {
    const { current } = scroller;
    if (!current) return;
    // React listens to wheels passively; only an active listener may keep the page from zooming.
    const onWheel = (event: WheelEvent): void => {
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        zoom.current(-event.deltaY / 100, event.clientX - current.getBoundingClientRect().left);
      } else if (event.deltaX === 0 && !event.shiftKey && current.scrollHeight <= current.clientHeight) {
        event.preventDefault();
        current.scrollLeft += event.deltaY;
      }
    };
    current.addEventListener('wheel', onWheel, { passive: false });
    return () => current.removeEventListener('wheel', onWheel);
  }, [scroller]);

  const release = (): void => {
    drag.current = null;
    scroller.current?.classList.remove('is-dragged');
  };
  return {
    onPointerDown: (event) => {
      const { current } = scroller;
      if (!current || event.button !== 0 || event.pointerType === 'touch') return;
      drag.current = { x: event.clientX, y: event.clientY, left: current.scrollLeft, top: current.scrollTop };
    },
    onPointerMove: (event) => {
      const { current } = scroller;
      const from = drag.current;
      if (!current || !from) return;
      const dx = event.clientX - from.x;
      const dy = event.clientY - from.y;
      if (!current.classList.contains('is-dragged')) {
        if (Math.hypot(dx, dy) < clickPx) return;
        current.classList.add('is-dragged');
        current.setPointerCapture(event.pointerId);
      }
      current.scrollLeft = from.left - dx;
      current.scrollTop = from.top - dy;
    },
    onPointerUp: release,
    onPointerCancel: release,
  };
};
