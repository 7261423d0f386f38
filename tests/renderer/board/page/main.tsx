import type { PDFPageProxy } from 'pdfjs-dist';
import { StrictMode, useEffect, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { createBoard } from '../../../../renderer/board/board.ts';
import type { BoardPointer } from '../../../../renderer/board/boardGestures.ts';
import { SheetView } from '../../../../renderer/board/SheetView.tsx';
import { screenPoint } from '../../../../renderer/board/screenPoint.ts';
import type { SheetDrawingState } from '../../../../renderer/board/sheetPainter.ts';
import { type PdfDocumentState, usePdfDocument } from '../../../../renderer/board/usePdfDocument.ts';
import { usePdfPage } from '../../../../renderer/board/usePdfPage.ts';
import * as viewTransform from '../../../../renderer/board/viewTransform.ts';

/** The board by itself on the page `?plan=` of the server that serves it, laid open to browser tests. */
const board = createBoard();
const openToTests = {
  board,
  viewTransform,
  screenPoint,
  document: { status: 'empty' } as PdfDocumentState,
  drawing: null as SheetDrawingState | null,
  page: null as PDFPageProxy | null,
  pointers: [] as BoardPointer[],
};

/** What {@link openToTests} is, under `window.boardPage`. */
export type BoardPage = typeof openToTests;
Object.assign(window, { boardPage: openToTests });

const query = new URLSearchParams(location.search);

const Page = () => {
  const [bytes, setBytes] = useState<Uint8Array | null>(null);
  useEffect(() => {
    void fetch(query.get('plan') ?? '')
      .then((response) => response.arrayBuffer())
      .then((buffer) => setBytes(new Uint8Array(buffer)));
  }, []);
  const pdf = usePdfDocument(bytes);
  const page = usePdfPage(pdf.status === 'ready' ? pdf.pdf : null, 1);
  openToTests.document = pdf;
  if (pdf.status !== 'ready' || page.status !== 'ready') return null;
  openToTests.page = page.page;
  return (
    <SheetView
      board={board}
      page={page.page}
      pdf={pdf.pdf}
      leftDrag={query.has('tool') ? 'tool' : 'pan'}
      onPointer={(pointer) => openToTests.pointers.push(pointer)}
      onDrawingState={(state) => {
        openToTests.drawing = state;
      }}
    />
  );
};

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no element to show the board in.');
createRoot(root).render(
  <StrictMode>
    <Page />
  </StrictMode>,
);
