import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { FitAnswer } from '../../src/fitting/fitAnswer.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { shortNameOf } from '../fitting/pieceNames.ts';

interface Wish {
  readonly words: string;
  /** Where it is on the sheet. */
  readonly places: readonly PaperPoint[];
  readonly undo: { readonly words: string; readonly command: Command } | null;
  /** It is changed in the stock range, not in the run. */
  readonly isOfRange?: true;
}

/** A path into the problem, as the wish that it is on the plan. */
const wishOf = (path: string, document: ProjectDocument, run: Run, range: StockRange | null): Wish => {
  const [, list, number] = /^(\w+)(?:\[(\d+)\])?/.exec(path) ?? [];
  const index = Number(number ?? 0);
  const ends = [run.frontLine[0], run.frontLine.at(-1)].flatMap((vertex) => (vertex ? [vertex.at] : []));
  if (list === 'corners') {
    const vertex = run.frontLine[index + 1];
    return {
      words: `Corner ${index + 1}${vertex?.treatment ? `, made ${vertex.treatment.replaceAll('-', ' ')}` : ''}`,
      places: vertex ? [vertex.at] : [],
      undo: vertex?.treatment
        ? {
            words: 'As fits best',
            command: { type: 'pin-corner', runId: run.id, vertexId: vertex.id, treatment: null },
          }
        : null,
    };
  }
  if (list === 'straights')
    return {
      words: `The length of straight ${index + 1}`,
      places: run.frontLine.slice(index, index + 2).map(({ at }) => at),
      undo: null,
    };
  if (list === 'wanted') {
    const stations = Object.values(document.stations)
      .filter(({ runId }) => runId === run.id)
      .sort((one, other) => (one.id < other.id ? -1 : 1));
    const station = stations[index];
    return station
      ? {
          words: `${shortNameOf(range, station.item)} where it is wanted`,
          places: [station.at],
          undo: { words: 'Want it no more', command: { type: 'remove-station', stationId: station.id } },
        }
      : { words: 'A wanted station', places: [], undo: null };
  }
  if (list === 'ends') return { words: 'How the run’s ends stop, and their give', places: ends, undo: null };
  if (list === 'stock')
    return { words: 'The widths that the stock range has', places: [], undo: null, isOfRange: true };
  if (list === 'maxWidthMm')
    return {
      words: 'The widest piece that is allowed',
      places: [],
      undo:
        run.maxWidthMm === null
          ? null
          : {
              words: 'No limit',
              command: { type: 'change-run', runId: run.id, changes: { maxWidthMm: null } },
            },
    };
  return { words: path, places: [], undo: null };
};

/** Why a run cannot be filled as asked: the clash in words, and each of its wishes within reach. */
export const Clash = (props: {
  readonly answer: FitAnswer;
  readonly explanation: string;
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly range: StockRange | null;
  readonly onShow: (places: readonly PaperPoint[]) => void;
  readonly onCommand: (command: Command) => void;
  readonly onRunStep: () => void;
  readonly onStock: () => void;
}) => (
  <section className="clash" aria-label="Why it cannot be filled">
    <p className="alert">{props.explanation}</p>
    {(props.answer.clash ?? []).length > 0 && (
      <>
        <h3>Give up one of these</h3>
        <ul className="lines">
          {(props.answer.clash ?? []).map((path) => {
            const wish = wishOf(path, props.document, props.run, props.range);
            const change = wish.isOfRange ? props.onStock : props.onRunStep;
            return (
              <li key={path}>
                <button
                  type="button"
                  className="pick-name"
                  title={wish.places.length > 0 ? 'Show it on the plan' : undefined}
                  onClick={() => (wish.places.length > 0 ? props.onShow(wish.places) : change())}
                >
                  {wish.words}
                </button>
                {wish.undo ? (
                  <button
                    type="button"
                    className="word-button"
                    onClick={() => wish.undo && props.onCommand(wish.undo.command)}
                  >
                    {wish.undo.words}
                  </button>
                ) : (
                  <button
                    type="button"
                    className="word-button"
                    aria-label={`Change: ${wish.words}`}
                    onClick={change}
                  >
                    Change
                  </button>
                )}
              </li>
            );
          })}
        </ul>
      </>
    )}
  </section>
);
