import { useMemo, useRef, useState } from 'react';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { distanceBetween } from '../../src/geometry/vector.ts';
import type { LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import type { Board } from '../board/board.ts';
import type { BoardPointer } from '../board/boardGestures.ts';
import { pxPerPaperUnit } from '../board/viewTransform.ts';
import { pickAt } from '../snapping/pickAt.ts';
import { sheetRightRad } from '../snapping/sheetRightRad.ts';
import type { Pick } from '../tools/pick.ts';
import type { RunningTool } from '../tools/useTool.ts';

/** What of a pointer's event makes a pick; keys make the same. */
export type PointerOverBoard = Omit<BoardPointer, 'screen' | 'pointerType'>;

/** Turning places on the board into picks for the tool in hand. */
export interface Picking {
  /** Nothing catches picks until it is switched back. */
  readonly isSuspended: boolean;
  readonly suspend: () => void;
  /** Tells the tool of a pointer, with the place that catches it. */
  readonly point: (pointer: PointerOverBoard) => void;
  /** Offers the next candidate at the last place. */
  readonly nextCandidate: () => void;
}

/** Away from where the next candidate was asked for, the best one counts again; in CSS pixels. */
const samePlacePx = 4;

export const usePicking = (over: {
  readonly board: Board;
  readonly tool: RunningTool;
  readonly index: LineworkIndex | null;
  readonly userUnit: number;
}): Picking => {
  const [isSuspended, setIsSuspended] = useState(false);
  const latest = useRef({ ...over, isSuspended });
  latest.current = { ...over, isSuspended };
  const candidate = useRef(0);
  const lastAt = useRef<PaperPoint | null>(null);

  return useMemo(() => {
    const pick = (hand: PaperPoint, isFree: boolean, isStepped: boolean): Pick => {
      const { board, tool, index, userUnit } = latest.current;
      const view = board.view.get();
      return pickAt(hand, {
        index,
        pxPerUnit: view ? pxPerPaperUnit(view) : 1,
        userUnit,
        guides: tool.viewNow().guides,
        isSuspended: isFree || latest.current.isSuspended,
        isStepped,
        candidate: candidate.current,
        sheetRightRad: sheetRightRad(board),
      });
    };
    return {
      isSuspended,
      suspend: () => setIsSuspended((before) => !before),
      nextCandidate: () => {
        if (!lastAt.current) return;
        candidate.current += 1;
        latest.current.tool.send({ type: 'pointer-move', pick: pick(lastAt.current, false, false) });
      },
      point: (pointer) => {
        const { board, tool } = latest.current;
        const view = board.view.get();
        if (
          view &&
          lastAt.current &&
          distanceBetween(pointer.paper, lastAt.current) * pxPerPaperUnit(view) > samePlacePx
        )
          candidate.current = 0;
        if (candidate.current === 0) lastAt.current = pointer.paper;
        const caught = pick(pointer.paper, pointer.altKey, pointer.shiftKey);
        if (pointer.type === 'move') tool.send({ type: 'pointer-move', pick: caught });
        else if (pointer.button !== 0) return;
        else if (pointer.type === 'up') tool.send({ type: 'pointer-up', pick: caught });
        else if (pointer.type === 'down' && pointer.clicks === 2) tool.send({ type: 'confirm' });
        else if (pointer.type === 'down')
          tool.send({
            type: 'pointer-down',
            pick: caught,
            shift: pointer.shiftKey,
            ctrl: pointer.ctrlKey || pointer.metaKey,
          });
      },
    };
  }, [isSuspended]);
};
