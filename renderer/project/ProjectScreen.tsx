import './ProjectScreen.css';
import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { StockRangeRef } from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { documentAsMeasured } from '../../src/measure/documentAsMeasured.ts';
import { scaleAtPlaces, scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { createBoard } from '../board/board.ts';
import type { Hit } from '../board/hitTest.ts';
import { moveByKey } from '../board/keyMove.ts';
import { usePdfDocument } from '../board/usePdfDocument.ts';
import { ElevationPane } from '../elevation/ElevationPane.tsx';
import { EntryLine } from '../entry/EntryLine.tsx';
import { shownAlternative } from '../fitting/fitWords.ts';
import { type TriedFit, withTriedFit } from '../fitting/tryFit.ts';
import { useRunFits } from '../fitting/useRunFits.ts';
import { IssuedScreen } from '../issued/IssuedScreen.tsx';
import { useLastIssued } from '../issued/useLastIssued.ts';
import { JobStep } from '../rail/JobStep.tsx';
import { JobSteps, type StepName } from '../rail/JobSteps.tsx';
import { Rail } from '../rail/Rail.tsx';
import { useFocusOnStep } from '../rail/useFocusOnStep.ts';
import { useRevisions } from '../revision/useRevisions.tsx';
import { Notice } from '../shell/Notice.tsx';
import { useFileDrop } from '../shell/useFileDrop.ts';
import type { Preferences } from '../shell/usePreferences.ts';
import { pickPlan, useShellMenu } from '../shell/useShellMenu.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { sheetRightRad } from '../snapping/sheetRightRad.ts';
import { useLineworkIndex } from '../snapping/useLineworkIndex.ts';
import type { StockShelf } from '../stock/stockShelf.ts';
import { aisleTool } from '../tools/aisleTool.ts';
import { editTool } from '../tools/editTool.ts';
import { measureTool } from '../tools/measureTool.ts';
import type { ToolContext } from '../tools/tool.ts';
import { traceTool } from '../tools/traceTool.ts';
import { useTool } from '../tools/useTool.ts';
import { useProjectAccess } from '../wayin/useProjectAccess.ts';
import { WayInPane } from '../wayin/WayInPane.tsx';
import { wayInItems } from '../wayin/wayInItems.ts';
import { BoardArea } from './BoardArea.tsx';
import { ClashNotice } from './ClashNotice.tsx';
import { evidenceItems } from './evidenceItems.ts';
import { fitOfRunOnPlan } from './fitOfRunOnPlan.ts';
import { freshId } from './freshId.ts';
import { fitItems, type PartOfRun, tracedItems } from './overlayItems.ts';
import { previewedDocument } from './previewedDocument.ts';
import type { ProjectSession } from './projectSession.ts';
import { SheetBoard } from './SheetBoard.tsx';
import { showPlaces } from './showPlaces.ts';
import { TakeInPlan } from './TakeInPlan.tsx';
import type { TakenIn } from './takenIn.ts';
import { usePlanBytes } from './usePlanBytes.ts';
import { useProject } from './useProject.ts';
import { useSheetReading } from './useSheetReading.ts';
import { useStockRange } from './useStockRange.ts';
import { type Takeaway, useTakeAway } from './useTakeAway.ts';
import { useWarnBeforeClosing } from './useWarnBeforeClosing.ts';

/** The board takes the keys. */
const focusBoard = () => document.querySelector<HTMLElement>('.sheet-view')?.focus({ preventScroll: true });

/** One project: the rail with the job’s steps, the sheet on the board, the entry line, the developed elevation. */
export const ProjectScreen = (props: {
  readonly api: ApiClient;
  readonly shelf: StockShelf;
  readonly session: ProjectSession;
  /** A plan that was dropped to start the project with. */
  readonly plan: File | null;
  readonly preferences: Preferences;
  /** Opens the stock ranges at a version. */
  readonly onStock: (version: StockRangeRef) => void;
  readonly onLeave: () => void;
}) => {
  const { api, session, preferences } = props;
  const { unit } = preferences;
  const project = useProject(session);
  const { document } = project;
  useWarnBeforeClosing(project.unsaved > 0);

  const [sheetId, setSheetId] = useState<SheetId | null>(document.sheetIds[0] ?? null);
  const [selectedRunId, setSelectedRunId] = useState<RunId | null>(document.runIds[0] ?? null);
  const [highlighted, setHighlighted] = useState<PartOfRun | null>(null);
  const [openStep, setOpenStep] = useState<StepName | null>(null);
  const [file, setFile] = useState<File | null>(props.plan);
  const [trouble, setTrouble] = useState<string | null>(null);
  const range = useStockRange(props.shelf, document.stockRange, setTrouble);
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

  const password = sheet ? passwords.current.get(sheet.planSha256) : undefined;
  const planBytes = usePlanBytes(api, sheet?.planSha256 ?? null);
  const pdf = usePdfDocument(planBytes.status === 'ready' ? planBytes.bytes : null, password);
  const reading = useSheetReading(api, sheet, password);
  const index = useLineworkIndex(api, sheet, password);
  const scale = useMemo(() => (sheet ? scaleOfSheet(document, sheet.id) : null), [document, sheet]);

  const passwordOf = useCallback((sha256: string) => passwords.current.get(sha256), []);

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
      scaleAt: (places) => (sheet ? scaleAtPlaces(document, sheet.id, places) : null),
      userUnit: sheet?.userUnit ?? 1,
      unit,
      selectedRunId,
      freshId,
      runDefaults: runDefaultsOf(range ?? demoRange),
      get touchPt() {
        const view = board.view.get();
        return view ? 9 / (view.pxPerPoint * (sheet?.userUnit ?? 1)) : 5;
      },
      linework: index,
      get sheetRightRad() {
        return sheetRightRad(board);
      },
    }),
    [document, sheet, scale, unit, selectedRunId, range, board, index],
  );
  const select = useCallback((runId: RunId | null) => {
    setSelectedRunId(runId);
    setHighlighted(null);
  }, []);
  const tool = useTool(editTool, context, { dispatch, select });

  const { preview } = tool.view;
  const previewed = useMemo(() => previewedDocument(document, preview), [document, preview]);
  // Fits are drawn where the run lies on site, traces where the architect drew them.
  const laid = useMemo(() => documentAsMeasured(previewed), [previewed]);
  // While something is dragged, the runs are refitted as it moves.
  const fits = useRunFits(previewed, range, previewed !== document, unit);
  const [tried, setTried] = useState<TriedFit | null>(null);
  const drawnFits = useMemo(() => withTriedFit(fits, tried), [fits, tried]);

  const access = useProjectAccess(document, range, fits);

  const selectedRun = (selectedRunId && document.runs[selectedRunId]) || null;

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

  useFocusOnStep(step);

  const items = useMemo(() => {
    if (!sheet) return [];
    const evidence =
      step === 'scale' && reading.status === 'ready' ? evidenceItems(reading.answer, unit) : [];
    const traced = [
      ...evidence,
      ...tracedItems(previewed, sheet.id, selectedRunId, unit, (id) => shownAlternative(drawnFits.get(id))),
    ];
    if (!scale || !range) return traced;
    const fitted = document.runIds.flatMap((runId) => {
      const fit = drawnFits.get(runId);
      // A run that is being moved has no fit where it would be until it is solved there.
      if (previewed.runs[runId] !== document.runs[runId] && fit?.status !== 'ready') return [];
      const parts = fitOfRunOnPlan(laid, runId, fit, range, sheet.id);
      return fitItems(runId, parts, highlighted?.runId === runId ? highlighted.part : null, unit);
    });
    const wayIn = step === 'way-in' ? wayInItems(document, sheet.id, unit) : [];
    return [...fitted, ...traced, ...wayIn];
  }, [
    document,
    previewed,
    laid,
    sheet,
    scale,
    selectedRunId,
    unit,
    drawnFits,
    range,
    highlighted,
    step,
    reading,
  ]);

  const taken = ({ fileName, sha256, page, password: typed }: TakenIn) => {
    const id = `sheet-${freshId()}` as SheetId;
    if (typed) passwords.current.set(sha256, typed);
    command({
      type: 'add-sheet',
      sheet: {
        id,
        name: (fileName.replace(/\.pdf$/i, '') || fileName).slice(0, 200),
        planSha256: sha256,
        planFileName: fileName,
        pageNumber: page.page,
        userUnit: page.userUnit,
        acceptedScale: null,
        layers: {},
      },
    });
    setSheetId(id);
    setOpenStep(null);
    setFile(null);
  };

  const revisions = useRevisions({
    api,
    session,
    project,
    sheet,
    scale,
    unit,
    board,
    items,
    passwordOf,
    onRevised: (id, runId) => {
      setSheetId(id);
      setSelectedRunId(runId);
      setOpenStep('plan');
    },
    onTrouble: (thrown) => setTrouble(wordsFor(thrown)),
  });

  const [isIssuedOpen, setIsIssuedOpen] = useState(false);
  const lastIssued = useLastIssued(api, project.projectId, document, isIssuedOpen);
  const takeAway = useTakeAway(api, session, sheet && { id: sheet.id, password });
  const takeAwayFromMenu = (what: Takeaway) => {
    // Where it is refused, the step says why.
    setOpenStep('away');
    void takeAway.take(what);
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

  const partOf = (hit: Hit | null): PartOfRun | null => {
    const [runId, part] = hit?.id.split('/') ?? [];
    return runId?.startsWith('run-') && part
      ? { runId: runId as RunId, part: part as PartOfRun['part'] }
      : null;
  };

  const highlightPart = (part: PartName | null) =>
    setHighlighted(part && selectedRun ? { runId: selectedRun.id, part } : null);

  const litPart = highlighted && highlighted.runId === selectedRun?.id ? highlighted.part : null;
  // A pointer over the board changes what the tool shows many times a second: the rest of the screen stays as it is.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the functions it hands on only read what is listed, or never change
  const rail = useMemo(
    () => (
      <Rail
        project={project}
        preferences={preferences}
        onLeave={props.onLeave}
        onUndo={session.undo}
        onRedo={session.redo}
        job={<JobStep api={api} project={project} unit={unit} onCommand={command} />}
      >
        <JobSteps
          project={{ document, sheet, scale, reading, range, fits, selectedRun, access, unit }}
          step={step}
          takeAway={takeAway}
          lastIssued={lastIssued}
          onIssued={() => setIsIssuedOpen(true)}
          onToggle={(name) => setOpenStep(step === name ? null : name)}
          onCommand={command}
          onSheet={setSheetId}
          onTakeIn={() => fileInput.current?.click()}
          onSelect={select}
          onTool={tool.take}
          onHighlight={highlightPart}
          onShow={(points) => showPlaces(board, points)}
          revision={revisions.panel}
          shelf={props.shelf}
          onStock={props.onStock}
          onTry={setTried}
          highlighted={litPart}
        />
      </Rail>
    ),
    [
      project,
      preferences,
      sheet,
      scale,
      reading,
      range,
      fits,
      selectedRun,
      access,
      step,
      takeAway.isBusy,
      takeAway.trouble,
      lastIssued,
      revisions.panel,
      litPart,
      props.shelf,
    ],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  const pane = useMemo(
    () =>
      step === 'way-in' ? (
        <WayInPane document={document} access={access} unit={unit} onCommand={command} />
      ) : (
        <ElevationPane
          document={laid}
          run={(selectedRun && laid.runs[selectedRun.id]) ?? null}
          fit={selectedRun ? drawnFits.get(selectedRun.id) : undefined}
          range={range}
          unit={unit}
          highlighted={litPart}
          onHighlight={highlightPart}
        />
      ),
    [step, project, laid, access, unit, selectedRun, drawnFits, range, litPart],
  );

  return (
    <>
      {isIssuedOpen && (
        <div className="issued-over">
          <IssuedScreen
            api={api}
            session={session}
            project={project}
            preferences={preferences}
            passwords={passwords.current}
            onCommand={command}
            onLeave={(at) => {
              setIsIssuedOpen(false);
              if (at) setOpenStep(at);
            }}
          />
        </div>
      )}
      <div className={isOver ? 'project is-over' : 'project'} inert={isIssuedOpen}>
        {(project.trouble || trouble) && (
          <Notice
            words={project.trouble?.message ?? trouble ?? ''}
            onDismiss={() => {
              session.dismissTrouble();
              setTrouble(null);
            }}
          />
        )}
        {project.clash && <ClashNotice clash={project.clash} unit={unit} session={session} />}
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
        {file && (
          <TakeInPlan
            api={api}
            file={file}
            sheets={revisions.revisable}
            onTaken={(plan, follows) => {
              if (!follows) return taken(plan);
              if (plan.password) passwords.current.set(plan.sha256, plan.password);
              setFile(null);
              revisions.begin(plan, follows);
            }}
            onClose={() => setFile(null)}
          />
        )}
        {revisions.dialog}

        {rail}

        <main className="project-main">
          <div className="project-board">
            <BoardArea
              sheet={sheet}
              planBytes={planBytes}
              pdf={pdf}
              onTakeIn={() => fileInput.current?.click()}
              onPassword={(typed) => sheet && passwords.current.set(sheet.planSha256, typed)}
            >
              {(openPdf, openSheet) => (
                <SheetBoard
                  board={board}
                  pdf={openPdf}
                  sheet={openSheet}
                  index={index}
                  items={revisions.shown}
                  tool={tool}
                  unit={unit}
                  onKey={onKey}
                  onHover={(hit) => setHighlighted(partOf(hit))}
                  onPress={(hit) => {
                    const part = partOf(hit);
                    if (part && part.runId !== selectedRunId) select(part.runId);
                  }}
                />
              )}
            </BoardArea>
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
              onDone={focusBoard}
              onAct={(name) => tool.send({ type: 'act', name })}
              tools={[
                {
                  name: 'trace',
                  words: 'Trace',
                  isOffered: scale !== null,
                  onTake: () => tool.take(traceTool),
                },
                {
                  name: 'measure',
                  words: 'Measure',
                  isOffered: scale !== null,
                  onTake: () => tool.take(measureTool),
                },
                {
                  name: 'aisle',
                  words: 'Aisle',
                  isOffered: scale !== null && document.runIds.length > 1,
                  onTake: () => tool.take(aisleTool),
                },
              ]}
              toolName={tool.name}
            />
          )}
          {pane}
        </main>
      </div>
    </>
  );
};
