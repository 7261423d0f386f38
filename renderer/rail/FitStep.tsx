import { runNumberOf } from '../../src/document/runsInForce.ts';
import './FitStep.css';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument, Run, StockRangeRef } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { DIGIT_SPACE } from '../../src/units/digitGroups.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { alternativeWords, shownAlternative } from '../fitting/fitWords.ts';
import { withNames } from '../fitting/pieceNames.ts';
import { refusalWords } from '../fitting/refusalWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';
import type { StockShelf } from '../stock/stockShelf.ts';
import { Alternatives } from './Alternatives.tsx';
import { Clash } from './Clash.tsx';
import { KeptFit } from './KeptFit.tsx';
import { LeftOut } from './LeftOut.tsx';
import { Leftovers } from './Leftovers.tsx';
import { PieceLines } from './PieceLines.tsx';
import { RangeLine } from './RangeLine.tsx';

/** Whole millimetres, and no line that breaks inside a number of several groups of digits. */
const readable = (text: string): string =>
  text
    .replace(/\d+\.\d+/g, (number) => String(Math.round(Number(number))))
    .replace(/(\d) (?=\d{3}(?!\d))/g, `$1${DIGIT_SPACE}`);

/** The fit of the selected run: what it comes to, why, what is left over, what else could be done. */
export const FitStep = (props: {
  readonly document: ProjectDocument;
  readonly run: Run | null;
  readonly fit: RunFit | undefined;
  readonly range: StockRange | null;
  readonly shelf: StockShelf;
  readonly unit: DisplayUnit;
  readonly highlighted: PartName | null;
  readonly onKeep: (alternative: FitAlternative, explanation: string) => void;
  readonly onRelease: () => void;
  readonly onHighlight: (part: PartName | null) => void;
  readonly onCommand: (command: Command) => void;
  /** Draws an alternative on plan and elevation while it is looked at. */
  readonly onTry: (alternative: FitAlternative | null) => void;
  readonly onShow: (places: readonly PaperPoint[]) => void;
  readonly onStock: (version: StockRangeRef) => void;
  readonly onRunStep: () => void;
}) => {
  const { document, run, fit, range, unit } = props;
  const rangeLine = (
    <RangeLine
      document={document}
      range={range}
      shelf={props.shelf}
      onStock={props.onStock}
      onChoose={(stockRange) => props.onCommand({ type: 'choose-stock-range', stockRange })}
    />
  );
  if (!run)
    return (
      <>
        {rangeLine}
        <p className="step-lead">
          {document.runIds.length === 0
            ? 'Trace a run first: it is filled as soon as it is traced.'
            : 'Choose a run to see how it is filled.'}
        </p>
      </>
    );
  if (!fit || fit.status === 'fitting' || !range)
    return (
      <>
        {rangeLine}
        <p className="step-lead" role="status">
          Fitting …
        </p>
      </>
    );
  if (fit.status === 'refused' || fit.status === 'failed')
    return (
      <>
        {rangeLine}
        <p className="alert">{withNames(refusalWords(fit.message), range, document)}</p>
      </>
    );
  const shown = shownAlternative(fit);
  const { answer, problem } = fit;
  const runNumber = runNumberOf(document, run.id);
  const worded = (text: string) => readable(withNames(text, range, document));
  const leftOut = shown?.leftOut ?? [];
  // What is left out has its own place above the questions.
  const questions = answer.questions.filter((question) => !/ is left out: /.test(question));
  return (
    <>
      {rangeLine}
      <KeptFit fit={fit} unit={unit} onRelease={props.onRelease} onTry={props.onTry} />
      {shown ? (
        <p className="fit-words">{alternativeWords(shown, unit)}</p>
      ) : (
        <Clash
          answer={answer}
          explanation={worded(answer.explanation)}
          document={document}
          run={run}
          range={range}
          onShow={props.onShow}
          onCommand={props.onCommand}
          onRunStep={props.onRunStep}
          onStock={() => props.onStock(document.stockRange)}
        />
      )}
      {answer.status === 'stopped' && (
        <p className="alert">
          The search ended at its limit of steps: a better fit may exist. What is shown keeps every rule.
        </p>
      )}
      {leftOut.length > 0 && (
        <LeftOut
          stations={leftOut}
          document={document}
          run={run}
          unit={unit}
          onCommand={props.onCommand}
          range={range}
          readable={readable}
          onShow={props.onShow}
        />
      )}
      <Alternatives
        run={run}
        fit={fit}
        shown={shown}
        range={range}
        unit={unit}
        onOrder={(order) => props.onCommand({ type: 'change-run', runId: run.id, changes: { order } })}
        onKeep={props.onKeep}
        onRelease={props.onRelease}
        onTry={props.onTry}
      />
      {shown && (
        <>
          <h3>Leftovers</h3>
          <Leftovers
            alternative={shown}
            problem={problem}
            range={range}
            runNumber={runNumber}
            unit={unit}
            highlighted={props.highlighted}
            onHighlight={props.onHighlight}
          />
        </>
      )}
      {questions.length > 0 && (
        <>
          <h3>What would change this</h3>
          <ul className="questions">
            {questions.map((question) => (
              <li key={question}>{worded(question)}</li>
            ))}
          </ul>
        </>
      )}
      {shown && (
        <>
          <PieceLines
            document={document}
            run={run}
            runNumber={runNumber}
            alternative={shown}
            range={range}
            unit={unit}
            highlighted={props.highlighted}
            onHighlight={props.onHighlight}
            onCommand={props.onCommand}
          />
          <h3>Why</h3>
          <p className="step-lead explanation">{worded(answer.explanation)}</p>
        </>
      )}
    </>
  );
};
