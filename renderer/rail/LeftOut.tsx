import type { Command } from '../../src/document/command.ts';
import type { StationId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { LeftOutStation } from '../../src/fitting/fitAnswer.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { moveStationCommand } from '../fitting/moveStation.ts';
import { shortNameOf, withNames } from '../fitting/pieceNames.ts';

/** The stations that have no place, by name, each with the reason and the nearest place that works. */
export const LeftOut = (props: {
  readonly stations: readonly LeftOutStation[];
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly range: StockRange | null;
  readonly readable: (text: string) => string;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
  readonly onShow: (places: readonly PaperPoint[]) => void;
}) => (
  <>
    <h3>Left out</h3>
    <ul className="lines">
      {props.stations.map(({ wanted, item, straight, reason, nearest }) => {
        const station = props.document.stations[wanted as StationId];
        const scale = drawnScaleOfRun(props.document, props.run);
        const move =
          nearest && station && scale ? moveStationCommand(props.run, station, nearest, scale) : null;
        const words = props.readable(withNames(reason, props.range, props.document));
        return (
          <li key={wanted}>
            <span className="alert">
              {shortNameOf(props.range, item)}, straight {straight + 1}
            </span>
            {station && (
              <button type="button" className="word-button" onClick={() => props.onShow([station.at])}>
                Show
              </button>
            )}
            <span className="line-note">{words.charAt(0).toUpperCase() + words.slice(1)}</span>
            {nearest && move && (
              <button
                type="button"
                className="word-button left-out-move"
                onClick={() => props.onCommand(move)}
              >
                Move it there: {formatLength(nearest.atMm, { unit: props.unit })} along straight{' '}
                {nearest.straight + 1}
              </button>
            )}
          </li>
        );
      })}
    </ul>
  </>
);
