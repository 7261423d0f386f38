import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { verdictWord } from '../../src/quote/schedule.ts';
import { DIGIT_SPACE } from '../../src/units/digitGroups.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { alternativeWords, shownAlternative } from '../fitting/fitWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';
import { Length } from './Length.tsx';

/** Whole millimetres, and no line that breaks inside a number of several groups of digits. */
const readable = (text: string): string =>
  text
    .replace(/\d+\.\d+/g, (number) => String(Math.round(Number(number))))
    .replace(/(\d) (?=\d{3}(?!\d))/g, `$1${DIGIT_SPACE}`);

/** The leftovers of a fit: mark, width, place and verdict, each in words. */
const Leftovers = (props: {
  readonly alternative: FitAlternative;
  readonly runNumber: number;
  readonly unit: DisplayUnit;
  readonly onHighlight: (part: PartName | null) => void;
}) => {
  const marks = pieceMarks(props.runNumber, props.alternative);
  if (props.alternative.leftovers.length === 0) return <p className="step-lead">Nothing is left over.</p>;
  return (
    <ul className="lines">
      {props.alternative.leftovers.map((leftover, index) => (
        <li
          key={marks.leftovers[index]}
          onPointerEnter={() => props.onHighlight(`leftover:${index}`)}
          onPointerLeave={() => props.onHighlight(null)}
        >
          <span>
            <b>{marks.leftovers[index]}</b> <span className="alert">{verdictWord(leftover.verdict)}</span>
          </span>
          <Length lengthMm={leftover.widthMm} unit={props.unit} />
          <span className="line-note">
            straight {leftover.straight + 1}, {formatLength(leftover.fromMm, { unit: props.unit })} to{' '}
            {formatLength(leftover.toMm, { unit: props.unit })}
            {leftover.confirmed ? '' : '; not sure from this drawing, measure on site'}
          </span>
        </li>
      ))}
    </ul>
  );
};

/** The fit of the selected run: what it comes to, why, what is left over, what else could be done. */
export const FitStep = (props: {
  readonly document: ProjectDocument;
  readonly run: Run | null;
  readonly fit: RunFit | undefined;
  readonly unit: DisplayUnit;
  readonly onKeep: (alternative: FitAlternative, explanation: string) => void;
  readonly onRelease: () => void;
  readonly onHighlight: (part: PartName | null) => void;
}) => {
  const { run, fit, unit } = props;
  if (!run) return <p className="step-lead">Choose a run to see how it is filled.</p>;
  if (!fit || fit.status === 'fitting')
    return (
      <p className="step-lead" role="status">
        Fitting …
      </p>
    );
  if (fit.status === 'refused' || fit.status === 'failed') return <p className="alert">{fit.message}</p>;
  const shown = shownAlternative(fit);
  const { answer, kept } = fit;
  const runNumber = props.document.runIds.indexOf(run.id) + 1;
  return (
    <>
      {kept && !kept.isCurrent && (
        <p className="alert">
          The kept fit answers an earlier trace or other settings. What is shown is the fit of the run as it
          is now.
        </p>
      )}
      {shown && <p>{alternativeWords(shown, unit)}</p>}
      {shown?.leftOut && shown.leftOut.length > 0 && (
        <ul className="lines">
          {shown.leftOut.map((station) => (
            <li key={station.wanted}>
              <span className="alert">{station.item}</span>
              <span className="line-note">{station.reason}</span>
            </li>
          ))}
        </ul>
      )}
      {shown && (
        <>
          <h3>Leftovers</h3>
          <Leftovers alternative={shown} runNumber={runNumber} unit={unit} onHighlight={props.onHighlight} />
        </>
      )}
      <h3>Why</h3>
      <p className="step-lead explanation">{readable(answer.explanation)}</p>
      {answer.questions.length > 0 && (
        <>
          <h3>What would change this</h3>
          <ul className="questions">
            {answer.questions.map((question) => (
              <li key={question}>{readable(question)}</li>
            ))}
          </ul>
        </>
      )}
      {answer.alternatives.length > 0 && (
        <>
          <h3>Keep one</h3>
          <ul className="lines">
            {answer.alternatives.map((alternative) => {
              const isKept =
                kept?.isCurrent === true && JSON.stringify(kept.alternative) === JSON.stringify(alternative);
              return (
                <li key={alternative.reason} className={isKept ? 'is-selected' : undefined}>
                  <span>{alternative.reason}</span>
                  {isKept ? (
                    <button type="button" className="word-button" onClick={props.onRelease}>
                      Release
                    </button>
                  ) : (
                    <button
                      type="button"
                      className="word-button"
                      onClick={() => props.onKeep(alternative, answer.explanation)}
                    >
                      Keep
                    </button>
                  )}
                  <span className="line-note">{alternativeWords(alternative, unit)}</span>
                </li>
              );
            })}
          </ul>
        </>
      )}
    </>
  );
};
