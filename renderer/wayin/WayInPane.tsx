import './WayInPane.css';
import { useMemo, useRef, useState } from 'react';
import { checkWayIn } from '../../src/access/checkWayIn.ts';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { useSize } from '../elevation/useSize.ts';
import { Loads } from './Loads.tsx';
import { MomentDrawing } from './MomentDrawing.tsx';
import { type Cell, PiecesByObstacles } from './PiecesByObstacles.tsx';
import { WaysCompared } from './WaysCompared.tsx';
import { answerSentence } from './wayInWords.ts';

const views = { pieces: 'Pieces', ways: 'Ways in', loads: 'Loads' } as const;
type ViewName = keyof typeof views;

/** The cell to begin with: the tightest place of the piece that is worst off. */
const worstCell = ({ groups }: ProjectAccess): Cell | null => {
  let worst: (Cell & { readonly marginMm: number }) | null = null;
  for (const [group, { answer }] of groups.entries())
    for (const [obstacle, { marginMm }] of answer.obstacles.entries())
      if (!worst || marginMm < worst.marginMm) worst = { group, obstacle, marginMm };
  return worst;
};

/** The tightest moment of one cell, drawn and in a sentence. */
const Moment = (props: {
  readonly access: ProjectAccess;
  readonly cell: Cell;
  readonly unit: DisplayUnit;
}) => {
  const { access, cell, unit } = props;
  const place = useRef<HTMLDivElement>(null);
  const size = useSize(place);
  const group = access.groups[cell.group];
  const obstacle = access.wayIn.obstacles[cell.obstacle];
  const answer = useMemo(
    () =>
      group && obstacle
        ? checkWayIn({ obstacles: [obstacle], pieces: [group.piece.piece] }, { drawings: true }).pieces[0]
            ?.obstacles[0]
        : undefined,
    [group, obstacle],
  );
  if (!group || !obstacle || !answer) return null;
  const words = answerSentence(group.piece.name, obstacle.name ?? '', answer, unit);
  return (
    <div className="way-moment">
      <div className="way-moment-room" ref={place}>
        {size.widthPx > 0 && (
          <MomentDrawing
            obstacle={obstacle}
            piece={group.piece.piece}
            answer={answer}
            unit={unit}
            words={words}
            roomPx={{ width: size.widthPx, height: size.heightPx - 20 }}
          />
        )}
      </div>
      <p className={answer.passes ? undefined : 'alert'}>{words}</p>
    </div>
  );
};

/** In place of the elevation while the step is open: every piece at every obstacle, ways compared, loads. */
export const WayInPane = (props: {
  readonly document: ProjectDocument;
  readonly access: ProjectAccess | null;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
}) => {
  const { access, unit } = props;
  const [view, setView] = useState<ViewName>('pieces');
  const [shown, setShown] = useState<Cell | null>(null);
  if (!access || access.pieces.length === 0 || access.wayIn.measured.length === 0)
    return (
      <section className="elevation way-pane" aria-label="Pieces on the way in">
        <p className="elevation-empty">
          {!access || access.wayIn.measured.length === 0
            ? 'Add the obstacles of the way in, and every piece is tried on each of them here.'
            : 'No piece is fitted yet. Trace a run, and its pieces are tried on the way in here.'}
        </p>
      </section>
    );
  const isThere = (cell: Cell) =>
    cell.group < access.groups.length && cell.obstacle < access.wayIn.obstacles.length;
  const cell = shown && isThere(shown) ? shown : worstCell(access);
  return (
    <section className="elevation way-pane" aria-label="Pieces on the way in">
      <header className="elevation-head">
        <p>
          <span className="elevation-title">{access.wayIn.name}</span>
          <span>margins in {unit === 'mm' ? 'mm' : 'ft-in'}; ≈ worked out, not in the range</span>
        </p>
        <span className="elevation-acts">
          {Object.entries(views).map(([name, words]) => (
            <button
              key={name}
              type="button"
              className="word-button"
              aria-pressed={view === name}
              onClick={() => setView(name as ViewName)}
            >
              {words}
            </button>
          ))}
        </span>
      </header>
      {view === 'pieces' && (
        <div className="way-pieces">
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls must be reachable by keyboard */}
          <section className="way-scroller" tabIndex={0} aria-label="Table of pieces and obstacles">
            <PiecesByObstacles
              wayIn={access.wayIn}
              groups={access.groups}
              unit={unit}
              shown={cell}
              onShow={setShown}
            />
          </section>
          {cell && <Moment access={access} cell={cell} unit={unit} />}
        </div>
      )}
      {view === 'ways' && (
        <div className="way-scroller">
          <WaysCompared {...props} access={access} />
        </div>
      )}
      {view === 'loads' && (
        <div className="way-scroller">
          <Loads {...props} access={access} />
        </div>
      )}
    </section>
  );
};
