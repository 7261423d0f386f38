import './ProjectScreen.css';
import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { RunId, SheetId } from '../../src/document/ids.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { solverVersion } from '../../src/fitting/problemHash.ts';
import { scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { createBoard } from '../board/board.ts';
import type { Hit } from '../board/hitTest.ts';
import { moveByKey } from '../board/keyMove.ts';
import { usePdfDocument } from '../board/usePdfDocument.ts';
import { ElevationPane } from '../elevation/ElevationPane.tsx';
import { EntryLine } from '../entry/EntryLine.tsx';
import { shortFitWords, shownAlternative } from '../fitting/fitWords.ts';
import { useRunFits } from '../fitting/useRunFits.ts';
import { FitStep } from '../rail/FitStep.tsx';
import { PlanStep } from '../rail/PlanStep.tsx';
import { Rail } from '../rail/Rail.tsx';
import { RunPanel } from '../rail/RunPanel.tsx';
import { RunsStep } from '../rail/RunsStep.tsx';
import { ScaleStep } from '../rail/ScaleStep.tsx';
import { Step } from '../rail/Step.tsx';
import { percentWords, ratioWords } from '../rail/scaleWords.ts';
import { TakeAwayStep } from '../rail/TakeAwayStep.tsx';
import { Notice } from '../shell/Notice.tsx';
import { useFileDrop } from '../shell/useFileDrop.ts';
import type { Preferences } from '../shell/usePreferences.ts';
import { pickPlan, useShellMenu } from '../shell/useShellMenu.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { useLineworkIndex } from '../snapping/useLineworkIndex.ts';
import { dimensionTool } from '../tools/dimensionTool.ts';
import { editTool } from '../tools/editTool.ts';
import { measureTool } from '../tools/measureTool.ts';
import { stationTool } from '../tools/stationTool.ts';
import type { ToolContext } from '../tools/tool.ts';
import { traceTool } from '../tools/traceTool.ts';
import { useTool } from '../tools/useTool.ts';
import { zoneTool } from '../tools/zoneTool.ts';
import { fitOfRunOnPlan } from './fitOfRunOnPlan.ts';
import { freshId } from './freshId.ts';
import { fitItems, type PartOfRun, tracedItems } from './overlayItems.ts';
import { PasswordAsk } from './PasswordAsk.tsx';
import type { ProjectSession } from './projectSession.ts';
import { SheetBoard } from './SheetBoard.tsx';
import { saveFile } from './saveFile.ts';
import { TakeInPlan, type TakenIn } from './TakeInPlan.tsx';
import { usePlanBytes } from './usePlanBytes.ts';
import { useProject } from './useProject.ts';
import { useSheetReading } from './useSheetReading.ts';

const stepNames = ['plan', 'scale', 'runs', 'fit', 'away'] as const;
type StepName = (typeof stepNames)[number];

/** One project: the rail with the job’s steps, the sheet on the board, the entry line, the developed elevation. */
export const ProjectScreen = (props: {
  readonly api: ApiClient;
  readonly session: ProjectSession;
  /** A plan that was dropped to start the project with. */
  readonly plan: File | null;
  readonly preferences: Preferences;
  readonly onLeave: () => void;
}) => {
  const { api, session, preferences } = props;
  const { unit } = preferences;
  const project = useProject(session);
  const { document } = project;

  const [sheetId, setSheetId] = useState<SheetId | null>(document.sheetIds[0] ?? null);
  const [selectedRunId, setSelectedRunId] = useState<RunId | null>(document.runIds[0] ?? null);
  const [highlighted, setHighlighted] = useState<PartOfRun | null>(null);
  const [openStep, setOpenStep] = useState<StepName | null>(null);
  const [file, setFile] = useState<File | null>(props.plan);
  const [range, setRange] = useState<StockRange | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const [awayTrouble, setAwayTrouble] = useState<string | null>(null);
  const passwords = useRef(new Map<string, string>());
  const fileInput = useRef<HTMLInputElement>(null);
  const entryInput = useRef<HTMLInputElement>(null);
  const [board] = useState(createBoard);
  const isOver = useFileDrop(setFile);

  const sheet = (sheetId && document.sheets[sheetId]) || null;
  const currentSheetId = sheet ? sheet.id : (document.sheetIds[0] ?? null);
  useEffect(() => {
    if (!sheet && currentSheetId) setSheetId(currentSheetId);
  }, [sheet, currentSheetId]);

  useEffect(() => {
    let isCurrent = true;
    api.call('list-stock-ranges', {}).then(
      ({ ranges }) => {
        const { id, version } = document.stockRange;
        const found = ranges.find((one) => one.id === id && one.version === version);
        if (!isCurrent) return;
        if (found) setRange(found as StockRange);
        else setTrouble(`The stock range “${id}” version ${version} of this project is not in the archive.`);
      },
      (thrown: unknown) => isCurrent && setTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api, document.stockRange]);

  const password = sheet ? passwords.current.get(sheet.planSha256) : undefined;
  const planBytes = usePlanBytes(api, sheet?.planSha256 ?? null);
  const pdf = usePdfDocument(planBytes.status === 'ready' ? planBytes.bytes : null, password);
  const reading = useSheetReading(api, sheet, password);
  const index = useLineworkIndex(api, sheet, password);
  const fits = useRunFits(document, range);
  const scale = useMemo(() => (sheet ? scaleOfSheet(document, sheet.id) : null), [document, sheet]);

  const dispatch = session.dispatch;
  const command = useCallback(
    (wanted: Parameters<typeof dispatch>[0]) => {
      const refused = dispatch(wanted);
      if (refused) setTrouble(refused);
    },
    [dispatch],
  );

  const context: ToolContext = useMemo(
    () => ({
      document,
      sheetId: sheet?.id ?? ('sheet-none' as SheetId),
      scale,
      userUnit: sheet?.userUnit ?? 1,
      unit,
      selectedRunId,
      freshId,
      runDefaults: runDefaultsOf(range ?? demoRange),
      get touchPt() {
        const view = board.view.get();
        return view ? 9 / (view.pxPerPoint * (sheet?.userUnit ?? 1)) : 5;
      },
    }),
    [document, sheet, scale, unit, selectedRunId, range, board],
  );
  const select = useCallback((runId: RunId | null) => {
    setSelectedRunId(runId);
    setHighlighted(null);
  }, []);
  const tool = useTool(editTool, context, { dispatch, select });

  const selectedRun = (selectedRunId && document.runs[selectedRunId]) || null;
  const selectedFit = selectedRun ? fits.get(selectedRun.id) : undefined;

  const items = useMemo(() => {
    if (!sheet) return [];
    const traced = tracedItems(document, sheet.id, scale, selectedRunId, unit);
    if (!scale || !range) return traced;
    const fitted = document.runIds.flatMap((runId) => {
      const parts = fitOfRunOnPlan(document, runId, fits.get(runId), scale, range, sheet.id);
      return fitItems(runId, parts, highlighted?.runId === runId ? highlighted.part : null, unit);
    });
    return [...fitted, ...traced];
  }, [document, sheet, scale, selectedRunId, unit, fits, range, highlighted]);

  const step: StepName =
    openStep ??
    (!sheet
      ? 'plan'
      : !scale
        ? 'scale'
        : document.runIds.length === 0
          ? 'runs'
          : selectedRun
            ? 'fit'
            : 'runs');
  const toggle = (name: StepName) => setOpenStep(step === name ? null : name);

  const taken = ({ fileName, sha256, page, password: typed }: TakenIn) => {
    const id = `sheet-${freshId()}` as SheetId;
    if (typed) passwords.current.set(sha256, typed);
    command({
      type: 'add-sheet',
      sheet: {
        id,
        name: fileName.replace(/\.pdf$/i, '') || fileName,
        planSha256: sha256,
        planFileName: fileName,
        pageNumber: page.page,
        userUnit: page.userUnit,
        acceptedScale: null,
        hiddenLayers: [],
      },
    });
    setSheetId(id);
    setOpenStep(null);
    setFile(null);
  };

  const takeAway = async (what: 'export-schedule' | 'export-plan') => {
    setIsBusy(true);
    setAwayTrouble(null);
    try {
      await session.settled();
      const { projectId } = project;
      const made =
        what === 'export-schedule'
          ? await api.call('export-schedule', { projectId })
          : await api.call('export-plan', {
              projectId,
              sheetId: sheet?.id ?? ('sheet-none' as SheetId),
              ...(password ? { password } : {}),
            });
      await saveFile(made);
    } catch (thrown) {
      setAwayTrouble(wordsFor(thrown));
    } finally {
      setIsBusy(false);
    }
  };

  const takeAwayFromMenu = (what: 'export-schedule' | 'export-plan') => {
    // Where it is refused, the step says why.
    setOpenStep('away');
    void takeAway(what);
  };
  useShellMenu({
    'show-projects': props.onLeave,
    'add-plan': () => void pickPlan().then(setFile, (thrown: unknown) => setTrouble(wordsFor(thrown))),
    undo: session.undo,
    redo: session.redo,
    ...(sheet && {
      'save-schedule': () => takeAwayFromMenu('export-schedule'),
      'save-plan': () => takeAwayFromMenu('export-plan'),
      'whole-sheet': () => moveByKey(board, 'Home'),
      closer: () => moveByKey(board, '+'),
      'further-away': () => moveByKey(board, '-'),
    }),
  });

  const keep = (alternative: FitAlternative, explanation: string) => {
    if (!selectedRun || selectedFit?.status !== 'ready') return;
    command({
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

  const onKey = (event: KeyboardEvent<HTMLElement>) => {
    const isCommand = event.ctrlKey || event.metaKey;
    if (isCommand && event.key.toLowerCase() === 'z') {
      event.preventDefault();
      if (event.shiftKey) session.redo();
      else session.undo();
    } else if (isCommand && event.key.toLowerCase() === 'y') {
      event.preventDefault();
      session.redo();
    } else if (event.key === 'Escape') tool.send({ type: 'escape' });
    else if (event.key === 'Enter') tool.send({ type: 'confirm' });
    else if (event.key === 'Delete' || event.key === 'Backspace') tool.send({ type: 'delete' });
    else if (/^[0-9.'"]$/.test(event.key) && !isCommand && tool.view.entry) {
      // A number typed over the board goes where numbers go.
      entryInput.current?.focus();
      return;
    } else return;
    event.preventDefault();
  };

  const isMovable = (hit: Hit | null) =>
    selectedRunId !== null && hit?.id === `run/${selectedRunId}` && hit.pointIndex !== undefined;
  const partOf = (hit: Hit | null): PartOfRun | null => {
    const [runId, part] = hit?.id.split('/') ?? [];
    return runId?.startsWith('run-') && part
      ? { runId: runId as RunId, part: part as PartOfRun['part'] }
      : null;
  };

  const takeUp = {
    dimension: () => tool.take(dimensionTool),
    trace: () => tool.take(traceTool),
    measure: () => tool.take(measureTool),
  };

  return (
    <div className={isOver ? 'project is-over' : 'project'}>
      {(project.trouble || trouble) && (
        <Notice
          words={project.trouble?.message ?? trouble ?? ''}
          onDismiss={() => {
            session.dismissTrouble();
            setTrouble(null);
          }}
        />
      )}
      <input
        ref={fileInput}
        type="file"
        accept="application/pdf,.pdf"
        className="visually-hidden"
        aria-label="Plan file"
        tabIndex={-1}
        onChange={(event) => {
          setFile(event.target.files?.[0] ?? null);
          event.target.value = '';
        }}
      />
      {file && <TakeInPlan api={api} file={file} onTaken={taken} onClose={() => setFile(null)} />}

      <Rail
        project={project}
        preferences={preferences}
        onLeave={props.onLeave}
        onUndo={session.undo}
        onRedo={session.redo}
      >
        <Step
          word="Plan"
          answer={sheet ? sheet.name : 'none yet'}
          needsWork={!sheet}
          isOpen={step === 'plan'}
          onOpen={() => toggle('plan')}
        >
          <PlanStep
            document={document}
            sheetId={sheet?.id ?? null}
            onSheet={setSheetId}
            onTakeIn={() => fileInput.current?.click()}
            onRemove={(id) => command({ type: 'remove-sheet', sheetId: id })}
          />
        </Step>
        <Step
          word="Scale"
          answer={
            scale ? (
              <>
                {ratioWords(scale.ratio)}{' '}
                <span className="plus-minus">{percentWords(scale.relativeUncertainty)}</span>
              </>
            ) : (
              'not known'
            )
          }
          needsWork={!scale}
          isOpen={step === 'scale'}
          onOpen={() => toggle('scale')}
        >
          {sheet ? (
            <ScaleStep
              scale={scale}
              reading={reading}
              unit={unit}
              onPick={takeUp.dimension}
              onAccept={(ratio, relativeUncertainty, because) =>
                command({
                  type: 'accept-scale',
                  sheetId: sheet.id,
                  scale: { ratio, relativeUncertainty, because },
                })
              }
              onForget={() => command({ type: 'accept-scale', sheetId: sheet.id, scale: null })}
              onChangeReference={(referenceId, lengthMm, typed) =>
                command({ type: 'change-reference', referenceId, changes: { lengthMm, typed } })
              }
              onRemoveReference={(referenceId) => command({ type: 'remove-reference', referenceId })}
            />
          ) : (
            <p className="step-lead">Take in a plan first.</p>
          )}
        </Step>
        <Step
          word="Runs"
          answer={document.runIds.length === 0 ? 'none yet' : String(document.runIds.length)}
          needsWork={document.runIds.length === 0}
          isOpen={step === 'runs'}
          onOpen={() => toggle('runs')}
        >
          <RunsStep
            document={document}
            fits={fits}
            selectedRunId={selectedRunId}
            unit={unit}
            canTrace={scale !== null}
            onSelect={select}
            onTrace={takeUp.trace}
          />
          {selectedRun && (
            <RunPanel
              document={document}
              run={selectedRun}
              range={range}
              unit={unit}
              onCommand={command}
              onZone={(kind) => tool.take(zoneTool(kind))}
              onStation={(item) => tool.take(stationTool(item))}
            />
          )}
        </Step>
        <Step
          word="Fit"
          answer={
            selectedFit && shownAlternative(selectedFit)
              ? shortFitWords(shownAlternative(selectedFit) as FitAlternative)
              : selectedRun
                ? '…'
                : 'choose a run'
          }
          needsWork={!selectedRun}
          isOpen={step === 'fit'}
          onOpen={() => toggle('fit')}
        >
          <FitStep
            document={document}
            run={selectedRun}
            fit={selectedFit}
            unit={unit}
            onKeep={keep}
            onRelease={() => selectedRun && command({ type: 'release-fit', runId: selectedRun.id })}
            onHighlight={(part) =>
              setHighlighted(part && selectedRun ? { runId: selectedRun.id, part } : null)
            }
          />
        </Step>
        <Step
          word="Take away"
          answer="schedule, plan"
          needsWork={document.runIds.length === 0}
          isOpen={step === 'away'}
          onOpen={() => toggle('away')}
        >
          <TakeAwayStep
            hasRuns={document.runIds.length > 0}
            isBusy={isBusy}
            trouble={awayTrouble}
            onSchedule={() => void takeAway('export-schedule')}
            onPlan={() => void takeAway('export-plan')}
          />
        </Step>
      </Rail>

      <main className="project-main">
        <div className="project-board">
          {!sheet && (
            <div className="board-message">
              <p>Drop the architect’s plan here, or</p>
              <p>
                <button type="button" className="main-button" onClick={() => fileInput.current?.click()}>
                  Take in a plan …
                </button>
              </p>
            </div>
          )}
          {sheet && planBytes.status === 'failed' && (
            <p className="board-message alert">{planBytes.message}</p>
          )}
          {sheet && pdf.status === 'failed' && <p className="board-message alert">{pdf.refusal.message}</p>}
          {sheet && pdf.status === 'password' && (
            <PasswordAsk
              isWrong={pdf.isWrong}
              onPassword={(typed) => {
                passwords.current.set(sheet.planSha256, typed);
                pdf.submit(typed);
              }}
            />
          )}
          {sheet && (planBytes.status === 'loading' || pdf.status === 'loading') && (
            <p className="board-message" role="status">
              Opening {sheet.planFileName} …
            </p>
          )}
          {sheet && pdf.status === 'ready' && (
            <SheetBoard
              board={board}
              pdf={pdf.pdf}
              sheet={sheet}
              index={index}
              items={items}
              tool={tool}
              unit={unit}
              onKey={onKey}
              isMovable={isMovable}
              onHover={(hit) => setHighlighted(partOf(hit))}
              onPress={(hit) => {
                const part = partOf(hit);
                if (part && part.runId !== selectedRunId) select(part.runId);
              }}
            />
          )}
        </div>
        {sheet && (
          <EntryLine
            view={tool.view}
            said={tool.said}
            inputRef={entryInput}
            onEntry={(text) => tool.send({ type: 'entry', text })}
            onConfirm={() => tool.send({ type: 'confirm' })}
            onEscape={() => tool.send({ type: 'escape' })}
            onDelete={() => tool.send({ type: 'delete' })}
            onAct={(name) => tool.send({ type: 'act', name })}
            tools={[
              { name: 'trace', words: 'Trace', isOffered: scale !== null, onTake: takeUp.trace },
              { name: 'measure', words: 'Measure', isOffered: scale !== null, onTake: takeUp.measure },
            ]}
            toolName={tool.name}
          />
        )}
        <ElevationPane
          document={document}
          run={selectedRun}
          fit={selectedFit}
          range={range}
          unit={unit}
          highlighted={highlighted && highlighted.runId === selectedRun?.id ? highlighted.part : null}
          onHighlight={(part) => setHighlighted(part && selectedRun ? { runId: selectedRun.id, part } : null)}
        />
      </main>
    </div>
  );
};
