import type { Command } from '../../src/document/command.ts';
import type { StationId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { shortNameOf } from '../fitting/pieceNames.ts';
import { isPin, pinCommand, releaseCommand } from '../fitting/pinPiece.ts';
import { freshId } from '../project/freshId.ts';
import { Length } from './Length.tsx';

/** A pin of our own: a short stroke on a foot, beside the word that says it. */
const PinMark = () => (
  <svg className="pin-mark" viewBox="0 0 10 12" aria-hidden="true">
    <path d="M2 11h6M5 11V1M2.5 1h5" fill="none" stroke="currentColor" strokeWidth="1.5" />
  </svg>
);

/** The pieces of the fit along the front. Each can be kept where it stands, and let go again. */
export const PieceLines = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly runNumber: number;
  readonly alternative: FitAlternative;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
  readonly highlighted: PartName | null;
  readonly onHighlight: (part: PartName | null) => void;
  readonly onCommand: (command: Command) => void;
}) => {
  const { document, run, alternative, range } = props;
  const marks = pieceMarks(props.runNumber, alternative).pieces;
  const inOrder = alternative.pieces
    .map((piece, index) => ({ piece, index, mark: marks[index] ?? '' }))
    .sort((one, other) => (one.mark < other.mark ? -1 : 1));
  const pins = Object.values(document.stations).filter(
    (station) => station.runId === run.id && isPin(station),
  );
  const release = (stations: typeof pins): Command => ({
    type: 'together',
    label: 'Let go of every piece',
    commands: stations.flatMap((station) => {
      const command = releaseCommand(station, range);
      return command.type === 'together' ? command.commands : [command];
    }),
  });
  return (
    <>
      <h3 className="with-act">
        Pieces
        {pins.length > 1 && (
          <button type="button" className="word-button" onClick={() => props.onCommand(release(pins))}>
            Let go of all {pins.length}
          </button>
        )}
      </h3>
      <ul className="lines piece-lines">
        {inOrder.map(({ piece, index, mark }) => {
          const wished =
            piece.wanted === undefined ? undefined : document.stations[piece.wanted as StationId];
          const pinned = wished && isPin(wished) ? wished : null;
          const name = shortNameOf(range, piece.item);
          const widthMm = piece.widthMm ?? piece.toMm - piece.fromMm;
          // `Module 1500` has said it already.
          const isWidthInName =
            props.unit === 'mm' && name.split(/\D+/).includes(String(Math.round(widthMm)));
          const pin = () => {
            const scale = drawnScaleOfRun(document, run);
            const command = scale && pinCommand(document, run, piece, { scale, freshId });
            if (command) props.onCommand(command);
          };
          return (
            <li
              key={mark}
              className={props.highlighted === `piece:${index}` ? 'is-lit' : undefined}
              onPointerEnter={() => props.onHighlight(`piece:${index}`)}
              onPointerLeave={() => props.onHighlight(null)}
            >
              <span className="line-name" title={range.items.find(({ id }) => id === piece.item)?.name}>
                <b>{mark}</b> {pinned && <PinMark />} {name}
              </span>
              <span className="piece-act">
                {!isWidthInName && <Length lengthMm={widthMm} unit={props.unit} />}
                {pinned ? (
                  <button
                    type="button"
                    className="word-button"
                    aria-label={`Let go of ${mark}, ${name}`}
                    onClick={() => props.onCommand(releaseCommand(pinned, range))}
                  >
                    Let go
                  </button>
                ) : (
                  <button
                    type="button"
                    className="word-button"
                    aria-label={`Hold ${mark}, ${name}: keep it here and refit around it`}
                    title="Keep this piece here and refit around it"
                    onFocus={() => props.onHighlight(`piece:${index}`)}
                    onBlur={() => props.onHighlight(null)}
                    onClick={pin}
                  >
                    Hold
                  </button>
                )}
              </span>
              {piece.widenedMm !== undefined && (
                <span className="line-note">
                  made {formatLength(piece.widenedMm, { unit: props.unit })} wider, in place of a
                  made-to-measure piece
                </span>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
};
