import { type ReactNode, useMemo } from 'react';
import type { Command } from '../../src/document/command.ts';
import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run, Sheet, StockRangeRef } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { solverVersion } from '../../src/fitting/problemHash.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import type { ScaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { formatMoney } from '../../src/units/money.ts';
import { shortFitWords, shownAlternative } from '../fitting/fitWords.ts';
import type { TriedFit } from '../fitting/tryFit.ts';
import type { RunFit } from '../fitting/useRunFits.ts';
import type { Issued } from '../issued/useIssuePreview.ts';
import { PriceStep } from '../price/PriceStep.tsx';
import { quoteInHand } from '../price/quoteInHand.ts';
import type { SheetReading } from '../project/useSheetReading.ts';
import type { TakeAway } from '../project/useTakeAway.ts';
import { SiteMeasureStep } from '../sitemeasure/SiteMeasureStep.tsx';
import { siteMeasureLines, siteMeasureWords } from '../sitemeasure/siteMeasureLines.ts';
import type { StockShelf } from '../stock/stockShelf.ts';
import { dimensionTool } from '../tools/dimensionTool.ts';
import { stationTool } from '../tools/stationTool.ts';
import { traceTool } from '../tools/traceTool.ts';
import type { RunningTool } from '../tools/useTool.ts';
import { zoneTool } from '../tools/zoneTool.ts';
import { WayInStep } from '../wayin/WayInStep.tsx';
import { shortAccessWords } from '../wayin/wayInWords.ts';
import { FitStep } from './FitStep.tsx';
import { PlanStep } from './PlanStep.tsx';
import { RunPanel } from './RunPanel.tsx';
import { RunsStep } from './RunsStep.tsx';
import { ScaleStep } from './ScaleStep.tsx';
import { Step } from './Step.tsx';
import { percentWords, ratioWords } from './scaleWords.ts';
import { stretchOf } from './stretchOf.ts';
import { TakeAwayStep } from './TakeAwayStep.tsx';

export type StepName = 'plan' | 'scale' | 'runs' | 'fit' | 'way-in' | 'site-measure' | 'price' | 'away';

/** What the steps show. */
export interface JobInHand {
  readonly document: ProjectDocument;
  readonly sheet: Sheet | null;
  readonly scale: ScaleOfSheet | null;
  readonly reading: SheetReading;
  readonly range: StockRange | null;
  readonly fits: ReadonlyMap<RunId, RunFit>;
  readonly selectedRun: Run | null;
  /** Every piece on the chosen way in; null while none is described. */
  readonly access: ProjectAccess | null;
  readonly unit: DisplayUnit;
}

/** The job in its order: plan, scale, runs, fit, way in, site measure, price, take away. */
export const JobSteps = (props: {
  readonly project: JobInHand;
  readonly step: StepName;
  readonly takeAway: TakeAway;
  readonly lastIssued: Issued | null;
  /** Opens the screen of what goes out and went out. */
  readonly onIssued: () => void;
  readonly onToggle: (name: StepName) => void;
  readonly onCommand: (command: Command) => void;
  readonly onSheet: (sheetId: SheetId) => void;
  readonly onTakeIn: () => void;
  readonly onSelect: (runId: RunId) => void;
  readonly onTool: RunningTool['take'];
  readonly onHighlight: (part: PartName | null) => void;
  /** Brings places of the sheet into sight. */
  readonly onShow: (points: readonly PaperPoint[]) => void;
  /** What there is to say of a sheet that follows another. */
  readonly revision: ReactNode;
  readonly shelf: StockShelf;
  readonly highlighted: PartName | null;
  /** Draws an alternative on plan and elevation while it is looked at. */
  readonly onTry: (tried: TriedFit | null) => void;
  /** Opens the stock ranges at a version. */
  readonly onStock: (version: StockRangeRef) => void;
}) => {
  const { document, sheet, scale, reading, range, fits, selectedRun, unit } = props.project;
  const isStretched = stretchOf(scale, reading.status === 'ready' ? reading.answer.scale : null) !== null;
  const selectedFit = selectedRun ? fits.get(selectedRun.id) : undefined;
  const shown = shownAlternative(selectedFit);
  const measures = useMemo(() => siteMeasureLines(document, fits), [document, fits]);
  const inHand = useMemo(
    () => range && quoteInHand(document, range, fits, new Date().toLocaleDateString('en-CA')),
    [document, range, fits],
  );
  const keep = (alternative: FitAlternative, explanation: string) => {
    if (!selectedRun || selectedFit?.status !== 'ready') return;
    props.onCommand({
      type: 'keep-fit',
      fit: {
        runId: selectedRun.id,
        problem: selectedFit.canonical,
        solverVersion,
        alternative: JSON.stringify(alternative),
        explanation,
      },
    });
  };

  return (
    <>
      <Step
        word="Plan"
        answer={sheet ? sheet.name : 'none yet'}
        needsWork={!sheet}
        isOpen={props.step === 'plan'}
        onOpen={() => props.onToggle('plan')}
      >
        <PlanStep
          document={document}
          sheetId={sheet?.id ?? null}
          onSheet={props.onSheet}
          onTakeIn={props.onTakeIn}
          reading={reading}
          onLayers={(id, layers) =>
            props.onCommand({ type: 'change-sheet', sheetId: id, changes: { layers } })
          }
          onRemove={(id) => props.onCommand({ type: 'remove-sheet', sheetId: id })}
          revision={props.revision}
        />
      </Step>
      <Step
        word="Scale"
        answer={
          scale ? (
            <>
              {ratioWords(scale.ratio)}{' '}
              <span className="plus-minus">{percentWords(scale.relativeUncertainty)}</span>
              {isStretched && <span className="alert"> stretched</span>}
            </>
          ) : (
            'not known'
          )
        }
        needsWork={!scale}
        isOpen={props.step === 'scale'}
        onOpen={() => props.onToggle('scale')}
      >
        {sheet ? (
          <ScaleStep
            scale={scale}
            reading={reading}
            unit={unit}
            onPick={() => props.onTool(dimensionTool)}
            onAccept={(accepted) =>
              props.onCommand({ type: 'accept-scale', sheetId: sheet.id, scale: accepted })
            }
            onShow={props.onShow}
            onForget={() => props.onCommand({ type: 'accept-scale', sheetId: sheet.id, scale: null })}
            onChangeReference={(referenceId, lengthMm, typed) =>
              props.onCommand({ type: 'change-reference', referenceId, changes: { lengthMm, typed } })
            }
            onRemoveReference={(referenceId) => props.onCommand({ type: 'remove-reference', referenceId })}
          />
        ) : (
          <p className="step-lead">Take in a plan first.</p>
        )}
      </Step>
      <Step
        word="Runs"
        answer={document.runIds.length === 0 ? 'none yet' : String(document.runIds.length)}
        needsWork={document.runIds.length === 0}
        isOpen={props.step === 'runs'}
        onOpen={() => props.onToggle('runs')}
      >
        <RunsStep
          document={document}
          fits={fits}
          selectedRunId={selectedRun?.id ?? null}
          unit={unit}
          canTrace={scale !== null}
          missing={sheet ? 'scale' : 'plan'}
          range={range}
          onCommand={props.onCommand}
          onSelect={props.onSelect}
          onTrace={() => props.onTool(traceTool)}
        />
        {selectedRun && (
          <RunPanel
            document={document}
            run={selectedRun}
            range={range}
            unit={unit}
            onCommand={props.onCommand}
            onZone={(kind) => props.onTool(zoneTool(kind))}
            onStation={(item) => props.onTool(stationTool(item))}
          />
        )}
      </Step>
      <Step
        word="Fit"
        answer={
          shown
            ? shortFitWords(shown)
            : !selectedRun
              ? document.runIds.length === 0
                ? 'no run yet'
                : 'choose a run'
              : selectedFit?.status === 'ready'
                ? 'cannot be filled as asked'
                : '…'
        }
        needsWork={!selectedRun}
        isOpen={props.step === 'fit'}
        onOpen={() => props.onToggle('fit')}
      >
        <FitStep
          document={document}
          run={selectedRun}
          fit={selectedFit}
          range={range}
          shelf={props.shelf}
          unit={unit}
          highlighted={props.highlighted}
          onKeep={keep}
          onRelease={() => selectedRun && props.onCommand({ type: 'release-fit', runId: selectedRun.id })}
          onHighlight={props.onHighlight}
          onCommand={props.onCommand}
          onTry={(alternative) =>
            props.onTry(
              alternative && selectedRun && selectedFit?.status === 'ready'
                ? { runId: selectedRun.id, canonical: selectedFit.canonical, alternative }
                : null,
            )
          }
          onShow={props.onShow}
          onStock={props.onStock}
          onRunStep={() => props.onToggle('runs')}
        />
      </Step>
      <Step
        word="Way in"
        answer={shortAccessWords(props.project.access)}
        needsWork={props.project.access === null}
        isOpen={props.step === 'way-in'}
        onOpen={() => props.onToggle('way-in')}
      >
        <WayInStep
          document={document}
          range={range}
          access={props.project.access}
          unit={unit}
          canPick={scale !== null}
          onCommand={props.onCommand}
          onTool={props.onTool}
        />
      </Step>
      <Step
        word="Site measure"
        answer={siteMeasureWords(measures)}
        needsWork={measures.length === 0}
        isOpen={props.step === 'site-measure'}
        onOpen={() => props.onToggle('site-measure')}
      >
        <SiteMeasureStep lines={measures} unit={unit} onCommand={props.onCommand} onSelect={props.onSelect} />
      </Step>
      <Step
        word="Price"
        answer={
          inHand ? (
            <>
              {formatMoney(inHand.quote.totals.total)}
              {(inHand.quote.withoutPrice.length > 0 || inHand.lacking.length > 0) && (
                <span className="alert"> incomplete</span>
              )}
            </>
          ) : (
            'nothing fitted yet'
          )
        }
        needsWork={!inHand}
        isOpen={props.step === 'price'}
        onOpen={() => props.onToggle('price')}
      >
        <PriceStep document={document} range={range} inHand={inHand} onCommand={props.onCommand} />
      </Step>
      <Step
        word="Take away"
        answer={
          props.lastIssued
            ? `issue ${props.lastIssued.number}, ${props.lastIssued.issuedAt.slice(0, 10)}`
            : 'nothing issued yet'
        }
        needsWork={document.runIds.length === 0}
        isOpen={props.step === 'away'}
        onOpen={() => props.onToggle('away')}
      >
        <TakeAwayStep
          hasRuns={document.runIds.length > 0}
          isBusy={props.takeAway.isBusy}
          trouble={props.takeAway.trouble}
          last={props.lastIssued}
          onTake={(what) => void props.takeAway.take(what)}
          onIssued={props.onIssued}
        />
      </Step>
    </>
  );
};
