import { useState } from 'react';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { createBoard } from '../board/board.ts';
import type { DisplayItem } from '../board/displayList.ts';
import type { LayerSwitches } from '../board/layerConfig.ts';
import { Magnifier } from '../board/Magnifier.tsx';
import { OverlayLayer } from '../board/OverlayLayer.tsx';
import { SheetView } from '../board/SheetView.tsx';
import { usePdfDocument } from '../board/usePdfDocument.ts';
import { usePdfPage } from '../board/usePdfPage.ts';
import { usePlanBytes } from '../project/usePlanBytes.ts';

const crossPx = 9;
const cross = [
  [
    { xPx: -crossPx, yPx: 0 },
    { xPx: crossPx, yPx: 0 },
  ],
  [
    { xPx: 0, yPx: -crossPx },
    { xPx: 0, yPx: crossPx },
  ],
];

const markAt = (at: PaperPoint, word: string, id: string): DisplayItem => ({
  kind: 'mark',
  id,
  at,
  strokes: cross,
  line: { tone: 'accent', widthPx: 1.5 },
  word,
});

/** One sheet to pick numbered places on: it zooms and pans as the board does, with the magnifier at the pointer. */
export const PickOnSheet = (props: {
  readonly api: ApiClient;
  readonly label: string;
  readonly sha256: string;
  readonly page: number;
  readonly password: string | undefined;
  readonly layers: LayerSwitches;
  readonly picks: readonly PaperPoint[];
  readonly isWaiting: boolean;
  readonly onPick: (at: PaperPoint) => void;
}) => {
  const [board] = useState(createBoard);
  const [pointer, setPointer] = useState<PaperPoint | null>(null);
  const bytes = usePlanBytes(props.api, props.sha256);
  const pdf = usePdfDocument(bytes.status === 'ready' ? bytes.bytes : null, props.password);
  const page = usePdfPage(pdf.status === 'ready' ? pdf.pdf : null, props.page);
  const items = [
    ...props.picks.map((at, index) => markAt(at, String(index + 1), `pick/${index}`)),
    ...(props.isWaiting && pointer ? [markAt(pointer, String(props.picks.length + 1), 'pick/next')] : []),
  ];
  return (
    <figure className={props.isWaiting ? 'pick-sheet is-waiting' : 'pick-sheet'}>
      <figcaption>
        {props.label}
        {props.isWaiting && <span className="quiet"> pick place {props.picks.length + 1} here</span>}
      </figcaption>
      <div className="pick-board">
        {bytes.status === 'failed' && <p className="alert">{bytes.message}</p>}
        {pdf.status === 'failed' && <p className="alert">{pdf.refusal.message}</p>}
        {page.status === 'failed' && <p className="alert">{page.message}</p>}
        {pdf.status === 'ready' && page.status === 'ready' ? (
          <SheetView
            board={board}
            page={page.page}
            pdf={pdf.pdf}
            layers={props.layers}
            leftDrag={props.isWaiting ? 'tool' : 'pan'}
            cursor={props.isWaiting ? 'crosshair' : 'default'}
            label={props.label}
            onPointer={(event) => {
              if (event.type === 'leave') setPointer(null);
              if (event.type === 'move') setPointer(event.paper);
              if (event.type === 'down' && event.button === 0 && props.isWaiting) props.onPick(event.paper);
            }}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' || !pointer || !props.isWaiting) return;
              event.preventDefault();
              props.onPick(pointer);
            }}
          >
            <OverlayLayer board={board} items={items} />
            {props.isWaiting && <Magnifier board={board} items={items} at={pointer ?? undefined} />}
          </SheetView>
        ) : (
          <p className="board-message" role="status">
            Opening …
          </p>
        )}
      </div>
    </figure>
  );
};
