import type { Command } from '../../src/document/command.ts';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import { wholeLengthOf } from '../../src/measure/straights.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { fitStateWords } from '../fitting/fitWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';
import { Length } from './Length.tsx';
import { RunActs } from './RunActs.tsx';

/** The run list: short and typographic, each run with its length, its +/- and how its fit stands. */
export const RunsStep = (props: {
  readonly document: ProjectDocument;
  readonly fits: ReadonlyMap<RunId, RunFit>;
  readonly selectedRunId: RunId | null;
  readonly unit: DisplayUnit;
  readonly canTrace: boolean;
  /** What has to be there before a run can be traced, while it can't. */
  readonly missing: 'plan' | 'scale';
  readonly range: StockRange | null;
  readonly onCommand: (command: Command) => void;
  readonly onSelect: (runId: RunId) => void;
  readonly onTrace: () => void;
}) => (
  <>
    {props.document.runIds.length === 0 && (
      <p className="step-lead">
        {props.canTrace
          ? 'Trace the front line of each counter, the customer face, from end to end. It is filled with stock pieces at once.'
          : props.missing === 'plan'
            ? 'Take in a plan first.'
            : 'Set the scale of the sheet first: a run is measured as it is traced.'}
      </p>
    )}
    {props.document.runIds.length > 0 && (
      <ul className="lines">
        {props.document.runIds.map((runId) => {
          const run = props.document.runs[runId];
          if (!run) return null;
          const scale = drawnScaleOfRun(props.document, run);
          const whole = scale && wholeLengthOf(runAsTraced(run), scale);
          const isSelected = runId === props.selectedRunId;
          return (
            <li key={runId} className={isSelected ? 'is-selected' : undefined}>
              <button
                type="button"
                className="pick-name"
                aria-pressed={isSelected}
                title={run.name}
                onClick={() => props.onSelect(runId)}
              >
                {run.name}
              </button>
              {whole ? (
                <Length lengthMm={whole.lengthMm} plusMinusMm={whole.plusMinusMm} unit={props.unit} />
              ) : (
                <span className="quiet">no scale</span>
              )}
              <span className="line-note">{fitStateWords(props.fits.get(runId), props.unit)}</span>
              {isSelected && (
                <RunActs
                  document={props.document}
                  run={run}
                  range={props.range}
                  onCommand={props.onCommand}
                  onSelect={props.onSelect}
                />
              )}
            </li>
          );
        })}
      </ul>
    )}
    <div className="acts">
      <button type="button" className="plain-button" disabled={!props.canTrace} onClick={props.onTrace}>
        Trace a run
      </button>
    </div>
  </>
);
