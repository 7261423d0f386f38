import './SheetBoard.css';
import type { PDFDocumentProxy } from 'pdfjs-dist';
import { type KeyboardEvent, useCallback, useMemo, useRef, useState } from 'react';
import type { Sheet } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { Board } from '../board/board.ts';
import type { BoardPointer } from '../board/boardGestures.ts';
import type { DisplayItem } from '../board/displayList.ts';
import { type Hit, hitTest } from '../board/hitTest.ts';
import { Magnifier } from '../board/Magnifier.tsx';
import { OverlayLayer } from '../board/OverlayLayer.tsx';
import { Overview } from '../board/Overview.tsx';
import { SheetView } from '../board/SheetView.tsx';
import { usePdfPage } from '../board/usePdfPage.ts';
import { pxPerPaperUnit } from '../board/viewTransform.ts';
import { pickAt } from '../snapping/pickAt.ts';
import type { Pick, ToolEvent } from '../tools/tool.ts';
import type { RunningTool } from '../tools/useTool.ts';
import { toolItems } from './toolItems.ts';

/**
 * The board with a sheet on it: what was traced, the fits, the tool in hand. Turns pointers and keys into the tool's
 * events; a press with the tool for editing that touches nothing pans.
 */
export const SheetBoard = (props: {
  readonly board: Board;
  readonly pdf: PDFDocumentProxy;
  readonly sheet: Sheet;
  readonly index: LineworkIndex | null;
  readonly items: readonly DisplayItem[];
  readonly tool: RunningTool;
  readonly unit: DisplayUnit;
  readonly onKey: (event: KeyboardEvent<HTMLElement>) => void;
  /** Whether a drag that starts at this hit moves a point. */
  readonly isMovable: (hit: Hit | null) => boolean;
  readonly onHover: (hit: Hit | null) => void;
  readonly onPress: (hit: Hit | null) => void;
}) => {
  const { board, pdf, sheet, tool, index } = props;
  const page = usePdfPage(pdf, sheet.pageNumber);
  const [isSuspended, setIsSuspended] = useState(false);
  /** Over a point of the selected run a drag moves the point, elsewhere it moves the sheet. */
  const [isOverPoint, setIsOverPoint] = useState(false);
  const candidate = useRef(0);
  const lastAt = useRef<PaperPoint | null>(null);
  const { anchor } = tool.view;

  const pick = useCallback(
    (point: PaperPoint, isFree: boolean): Pick => {
      const view = board.view.get();
      return pickAt(point, {
        index,
        pxPerUnit: view ? pxPerPaperUnit(view) : 1,
        userUnit: sheet.userUnit,
        anchor,
        isSuspended: isFree,
        candidate: candidate.current,
      });
    },
    [board, index, sheet.userUnit, anchor],
  );

  const onPointer = (pointer: BoardPointer) => {
    const isFree = pointer.altKey || isSuspended;
    if (pointer.type === 'cancel' || pointer.type === 'leave') return;
    if (pointer.type === 'move' && lastAt.current) {
      const view = board.view.get();
      const moved = Math.hypot(pointer.paper.x - lastAt.current.x, pointer.paper.y - lastAt.current.y);
      // The next candidate was asked for here; away from here, the best one counts again.
      if (view && moved * pxPerPaperUnit(view) > 4) candidate.current = 0;
    }
    if (candidate.current === 0) lastAt.current = pointer.paper;
    const event: ToolEvent | null =
      pointer.type === 'move'
        ? { type: 'pointer-move', pick: pick(pointer.paper, isFree) }
        : pointer.button === 0 && (pointer.type === 'down' || pointer.type === 'up')
          ? pointer.type === 'down' && pointer.clicks === 2
            ? { type: 'confirm' }
            : { type: `pointer-${pointer.type}`, pick: pick(pointer.paper, isFree), shift: pointer.shiftKey }
          : null;
    if (tool.name === 'edit') {
      const view = board.view.get();
      const hit = (view && hitTest(props.items, view, pointer.screen)[0]) ?? null;
      if (pointer.type === 'down' && pointer.button === 0) props.onPress(hit);
      if (pointer.type === 'move') {
        setIsOverPoint(props.isMovable(hit));
        props.onHover(hit);
      }
    }
    if (event) tool.send(event);
  };

  const onKeyDown = (event: KeyboardEvent<HTMLElement>) => {
    if (event.key === 'n' && tool.name !== 'edit' && lastAt.current) {
      event.preventDefault();
      candidate.current += 1;
      tool.send({ type: 'pointer-move', pick: pick(lastAt.current, false) });
      return;
    }
    if (event.key === 'q' && !event.ctrlKey && !event.metaKey) setIsSuspended((before) => !before);
    props.onKey(event);
  };

  const items = useMemo(
    () => [...props.items, ...toolItems(tool.view, props.unit)],
    [props.items, tool.view, props.unit],
  );
  const isPicking = tool.name !== 'edit';

  if (page.status === 'loading')
    return (
      <p className="board-message" role="status">
        Opening page {sheet.pageNumber} …
      </p>
    );
  if (page.status === 'failed') return <p className="board-message alert">{page.message}</p>;
  return (
    <SheetView
      board={board}
      page={page.page}
      pdf={pdf}
      layers={sheet.layers}
      leftDrag={isPicking || isOverPoint ? 'tool' : 'pan'}
      cursor={isPicking ? 'crosshair' : isOverPoint ? 'move' : 'default'}
      onPointer={onPointer}
      onKeyDown={onKeyDown}
      label={`Sheet ${sheet.name}`}
    >
      <OverlayLayer board={board} items={items} />
      {isPicking && <Magnifier board={board} items={items} />}
      <div className="board-overview">
        <Overview board={board} />
      </div>
      {isSuspended && <p className="board-flag">Picks are free: q catches lines again</p>}
    </SheetView>
  );
};
