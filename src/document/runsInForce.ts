import type { RunId, SheetId } from './ids.ts';
import type { ProjectDocument } from './projectDocument.ts';

/** Whether a later revision of the same drawing has taken the place of a sheet. */
export const isSuperseded = (document: Pick<ProjectDocument, 'sheets'>, sheetId: SheetId): boolean =>
  Object.values(document.sheets).some(({ revisionOf }) => revisionOf?.supersedes === sheetId);

/** The runs that are priced, drawn and issued, in their order: those on sheets that no later revision has superseded. */
export const runIdsInForce = (
  document: Pick<ProjectDocument, 'sheets' | 'runs' | 'runIds'>,
): readonly RunId[] =>
  document.runIds.filter((runId) => {
    const run = document.runs[runId];
    return run !== undefined && !isSuperseded(document, run.sheetId);
  });

/**
 * The number of a run in marks and schedules, from 1: its place among the runs in force. A run of a superseded sheet
 * has the number of the run that it was carried over to, so that marks stay through revisions; one that was not carried
 * over counts on after the runs in force. 0 for a run that is not in the project.
 */
export const runNumberOf = (
  document: Pick<ProjectDocument, 'sheets' | 'runs' | 'runIds'>,
  runId: RunId,
): number => {
  const inForce = runIdsInForce(document);
  let id: RunId | undefined = runId;
  // A chain of revisions is as long as the project has runs at most.
  for (let steps = 0; id !== undefined && steps <= document.runIds.length; steps += 1) {
    const place = inForce.indexOf(id);
    if (place >= 0) return place + 1;
    const before: RunId = id;
    id = document.runIds.find((other) => document.runs[other]?.carriedFrom === before);
  }
  const leftBehind = document.runIds.filter((other) => !inForce.includes(other));
  return document.runs[runId] ? inForce.length + leftBehind.indexOf(runId) + 1 : 0;
};
