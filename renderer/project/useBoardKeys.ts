import { type KeyboardEvent, useEffect, useRef } from 'react';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { turnedBy, type Vector } from '../../src/geometry/vector.ts';
import type { Board } from '../board/board.ts';
import { screenPoint } from '../board/screenPoint.ts';
import { keptInSight, panBy, toPaper, toScreen } from '../board/viewTransform.ts';
import { sheetRightRad } from '../snapping/sheetRightRad.ts';
import type { RunningTool } from '../tools/useTool.ts';
import type { Picking } from './usePicking.ts';

/** Arrow keys as directions on the sheet as shown, y up. */
const arrows: Readonly<Record<string, Vector>> = {
  ArrowRight: { x: 1, y: 0 },
  ArrowLeft: { x: -1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
};

/** How far an arrow key moves what is chosen, in mm of the room; with Shift. */
const nudgeMm = { plain: 1, shift: 10 } as const;
/** How far an arrow key moves the pointer, in CSS pixels; with Shift, and with Alt. */
const pointerPx = { plain: 8, shift: 64, alt: 1 } as const;
/** The sheet follows when the pointer comes this near the board's edge, in CSS pixels. */
const edgePx = 24;

/** Moves the sheet so that a place lies in the middle, if it is out of sight. */
const bringToSight = (board: Board, place: PaperPoint | undefined): void => {
  const view = board.view.get();
  if (!view || !place) return;
  const { x, y } = toScreen(view, place);
  const isSeen = x >= edgePx && y >= edgePx && x <= view.widthPx - edgePx && y <= view.heightPx - edgePx;
  if (!isSeen) board.view.set(keptInSight(panBy(view, view.widthPx / 2 - x, view.heightPx / 2 - y)));
};

/**
 * The board's keys: arrows move the chosen part by millimetres, else the pointer of a tool that picks, else the sheet;
 * Space picks where the arrows have led; letters do the acts that the tool offers; Page Up and Page Down step through
 * parts; n offers the next candidate and q suspends catching. The rest goes on to `onKey`.
 */
export const useBoardKeys = (over: {
  readonly board: Board;
  readonly tool: RunningTool;
  readonly picking: Picking;
  readonly onKey: (event: KeyboardEvent<HTMLElement>) => void;
}) => {
  const { board, tool, picking } = over;
  /** The pointer was last moved by keys: only then does Space pick, for with a mouse it pans. */
  const isByKeys = useRef(false);
  const send = tool.send;

  useEffect(() => {
    const letGo = ({ key }: { readonly key: string }) => {
      if (key in arrows) send({ type: 'nudge-end' });
    };
    const lostFocus = () => send({ type: 'nudge-end' });
    const byHand = () => {
      isByKeys.current = false;
    };
    window.addEventListener('keyup', letGo);
    window.addEventListener('blur', lostFocus);
    window.addEventListener('pointermove', byHand);
    return () => {
      window.removeEventListener('keyup', letGo);
      window.removeEventListener('blur', lostFocus);
      window.removeEventListener('pointermove', byHand);
    };
  }, [send]);

  const pointByKeys = (type: 'move' | 'down' | 'up', event: KeyboardEvent<HTMLElement>) => {
    const view = board.view.get();
    const at = board.pointer.get();
    if (!view || !at) return;
    picking.point({
      type,
      paper: toPaper(view, at),
      button: type === 'move' ? -1 : 0,
      clicks: type === 'down' ? 1 : 0,
      shiftKey: type !== 'move' && event.shiftKey,
      ctrlKey: event.ctrlKey,
      altKey: false,
      metaKey: event.metaKey,
    });
  };

  const movePointer = (way: Vector, event: KeyboardEvent<HTMLElement>) => {
    const view = board.view.get();
    if (!view) return;
    const step = event.shiftKey ? pointerPx.shift : event.altKey ? pointerPx.alt : pointerPx.plain;
    const from = board.pointer.get() ?? screenPoint(view.widthPx / 2, view.heightPx / 2);
    const to = screenPoint(from.x + way.x * step, from.y - way.y * step);
    const within = screenPoint(
      Math.min(view.widthPx - edgePx, Math.max(edgePx, to.x)),
      Math.min(view.heightPx - edgePx, Math.max(edgePx, to.y)),
    );
    board.view.set(keptInSight(panBy(view, within.x - to.x, within.y - to.y)));
    board.pointer.set(within);
    isByKeys.current = true;
    pointByKeys('move', event);
  };

  return (event: KeyboardEvent<HTMLElement>) => {
    const isPlain = !event.ctrlKey && !event.metaKey;
    const view = tool.viewNow();
    const way = arrows[event.key];
    const done = () => event.preventDefault();
    if (way && isPlain && view.takesNudges) {
      const mm = event.shiftKey ? nudgeMm.shift : nudgeMm.plain;
      const onPaper = turnedBy(way, sheetRightRad(board));
      send({ type: 'nudge', byMm: { x: onPaper.x * mm, y: onPaper.y * mm } });
      return done();
    }
    if (way && isPlain && view.hand === 'pick') {
      movePointer(way, event);
      return done();
    }
    if (event.key === ' ' && isByKeys.current && view.hand === 'pick') {
      pointByKeys('down', event);
      pointByKeys('up', event);
      return done();
    }
    if (event.key === 'PageDown' || event.key === 'PageUp') {
      send({ type: 'step', by: event.key === 'PageDown' ? 1 : -1 });
      bringToSight(board, tool.viewNow().handles.find(({ isChosen }) => isChosen)?.at);
      return done();
    }
    if (isPlain && !event.altKey && /^[a-z]$/i.test(event.key)) {
      const letter = event.key.toLowerCase();
      const act = view.acts.find(({ key }) => key === letter);
      if (act) send({ type: 'act', name: act.name });
      else if (letter === 'n') picking.nextCandidate();
      else if (letter === 'q') picking.suspend();
      else return over.onKey(event);
      return done();
    }
    over.onKey(event);
  };
};
