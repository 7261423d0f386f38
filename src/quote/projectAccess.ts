import { type MeasuredWayIn, wayInOfProject } from '../access/wayInOfProject.ts';
import { type WidestModule, widestModule } from '../access/widestModule.ts';
import type { RunId } from '../document/ids.ts';
import type { ProjectDocument, Run } from '../document/projectDocument.ts';
import { runIdsInForce } from '../document/runsInForce.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import { poseProblem } from '../fitting/poseProblem.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { type DeliveredPiece, deliveredPieces } from './deliveredPieces.ts';
import { type LoosePartVerdict, looseParts, loosePartVerdicts } from './looseParts.ts';
import { type PieceGroup, wayInVerdicts } from './wayInVerdicts.ts';

/** How far modules pass for one run, and whether the run is tied to it. */
export interface RunLimit {
  readonly run: Run;
  readonly widest: WidestModule;
  readonly isTied: boolean;
}

/** Every piece of a project against its chosen way in. */
export interface ProjectAccess {
  readonly wayIn: MeasuredWayIn;
  /** All pieces of all fitted runs, in the order of the runs and along their fronts. */
  readonly pieces: readonly DeliveredPiece[];
  readonly groups: readonly PieceGroup[];
  /** Fillers, end panels and lengths of shelf. */
  readonly loose: readonly LoosePartVerdict[];
  /** Marks of pieces whose size is not known. */
  readonly notJudged: readonly string[];
  readonly limits: readonly RunLimit[];
}

/**
 * Judges every piece of the project's fits on its chosen way in; null while none is described.
 *
 * @param fitOf the fit of a run that counts, or null while it has none.
 */
export const projectAccess = (
  document: ProjectDocument,
  range: StockRange,
  fitOf: (runId: RunId) => FitAlternative | null,
): ProjectAccess | null => {
  const wayIn = document.chosenWayInId && wayInOfProject(document, document.chosenWayInId);
  if (!wayIn) return null;
  const delivered = runIdsInForce(document).flatMap((runId, index) => {
    const run = document.runs[runId];
    const fit = run && fitOf(runId);
    if (!fit) return [];
    const posed = poseProblem(document, runId, range);
    const { depthMm, name } = run;
    const number = index + 1;
    const turnsDeg = posed.ok ? posed.problem.corners?.map(({ turnDeg }) => turnDeg) : undefined;
    return [
      {
        ...deliveredPieces({ number, depthMm, ...(turnsDeg ? { turnsDeg } : {}) }, fit, range),
        loose: posed.ok ? looseParts({ number, name }, posed.problem, fit, range) : [],
      },
    ];
  });
  const pieces = delivered.flatMap((one) => one.pieces);
  const byDepth = new Map<number, WidestModule | null>();
  const limits = runIdsInForce(document).flatMap((runId): RunLimit[] => {
    const run = document.runs[runId];
    if (!run) return [];
    if (!byDepth.has(run.depthMm))
      byDepth.set(run.depthMm, widestModule(wayIn.obstacles, range, run.depthMm));
    const widest = byDepth.get(run.depthMm);
    return widest ? [{ run, widest, isTied: document.limitedRunIds.includes(runId) }] : [];
  });
  return {
    wayIn,
    pieces,
    groups: wayInVerdicts(wayIn.obstacles, pieces),
    loose: loosePartVerdicts(
      wayIn.obstacles,
      delivered.flatMap((one) => one.loose),
    ),
    notJudged: delivered.flatMap((one) => one.notJudged),
    limits,
  };
};
