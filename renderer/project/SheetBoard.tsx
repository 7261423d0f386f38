import './SheetBoard.css';
import type { PDFDocumentProxy } from 'pdfjs-dist';
import { type KeyboardEvent, useEffect, useMemo, useRef } from 'react';
import type { Sheet } from '../../src/document/projectDocument.ts';
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
import type { RunningTool } from '../tools/useTool.ts';
import { toolItems } from './toolItems.ts';
import { useBoardKeys } from './useBoardKeys.ts';
import { usePicking } from './usePicking.ts';

const cursors = { pick: 'crosshair', hold: 'move', sheet: 'default' } as const;

/**
 * The board with a sheet on it: what was traced, the fits, the tool in hand. Turns pointers and keys into the tool's
 * events; a press that the tool has no use for pans.
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
  readonly onHover: (hit: Hit | null) => void;
  readonly onPress: (hit: Hit | null) => void;
}) => {
  const { board, pdf, sheet, tool, index } = props;
  const page = usePdfPage(pdf, sheet.pageNumber);
  const picking = usePicking({ board, tool, index, userUnit: sheet.userUnit });
  const onKeyDown = useBoardKeys({ board, tool, picking, onKey: props.onKey });

  const onPointer = (pointer: BoardPointer) => {
    if (pointer.type === 'leave') return;
    if (pointer.type === 'cancel') {
      tool.send({ type: 'pointer-cancel' });
      return;
    }
    if (tool.name === 'edit') {
      const view = board.view.get();
      const hit = (view && hitTest(props.items, view, pointer.screen)[0]) ?? null;
      if (pointer.type === 'down' && pointer.button === 0) props.onPress(hit);
      if (pointer.type === 'move') props.onHover(hit);
    }
    picking.point(pointer);
  };

  // In a layer of its own: while a tool draws, what was traced before need not be painted again.
  const drawn = useMemo(() => toolItems(tool.view, props.unit), [tool.view, props.unit]);
  const items = useMemo(() => [...props.items, ...drawn], [props.items, drawn]);
  const { hand } = tool.view;

  // Whoever takes up a tool means the board: its keys work at once, without a click that would be a pick.
  const corner = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (tool.name !== 'edit')
      corner.current?.closest<HTMLElement>('.sheet-view')?.focus({ preventScroll: true });
  }, [tool.name]);

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
      leftDrag={hand === 'sheet' ? 'pan' : 'tool'}
      cursor={cursors[hand]}
      onPointer={onPointer}
      onKeyDown={onKeyDown}
      label={`Sheet ${sheet.name}`}
    >
      <OverlayLayer board={board} items={props.items} />
      <OverlayLayer board={board} items={drawn} order={11} />
      {hand === 'pick' && <Magnifier board={board} items={items} at={tool.view.marks.at(-1)?.at} />}
      <div ref={corner} className="board-overview">
        <Overview board={board} />
      </div>
      {picking.isSuspended && <p className="board-flag">Picks are free: q catches lines again</p>}
    </SheetView>
  );
};
