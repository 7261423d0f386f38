import type { RunId } from '../../document/ids.ts';
import { changeDocument, type Patch } from '../../document/patch.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import type { ProjectEvent } from '../ports.ts';
import { projectFactsOf, runLengthMm } from '../search/projectFacts.ts';
import { isSameJson } from './safeJson.ts';

/** One project in two states: as this archive has it, and as a project file has it. */

/**
 * How a file's changes stand to the archive's: `same`, `behind` (the archive has them all and more), `ahead` (the file
 * has all of the archive's and more) or `parted` (each has changes that the other has not).
 */
export type Relation = 'same' | 'behind' | 'ahead' | 'parted';

export const relationOf = (
  mine: readonly ProjectEvent[],
  theirs: readonly ProjectEvent[],
): { readonly relation: Relation; readonly common: number } => {
  const shorter = Math.min(mine.length, theirs.length);
  let common = 0;
  while (common < shorter && isSameJson(mine[common], theirs[common])) common += 1;
  if (common < shorter) return { relation: 'parted', common };
  if (mine.length === theirs.length) return { relation: 'same', common };
  return { relation: mine.length > theirs.length ? 'behind' : 'ahead', common };
};

type Json = Record<string, unknown>;
const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const becomeLike = (draft: Json, like: Json): void => {
  for (const key of Object.keys(draft)) if (!Object.hasOwn(like, key)) delete draft[key];
  for (const [key, value] of Object.entries(like)) {
    const own = draft[key];
    if (isSameJson(own, value)) continue;
    if (isRecord(own) && isRecord(value)) becomeLike(own, value);
    else draft[key] = value;
  }
};

/** The change that makes one state into the other; what they have in common is not touched. */
export const patchBetween = (from: ProjectDocument, to: ProjectDocument): Patch =>
  changeDocument(from, (draft) => becomeLike(draft as unknown as Json, to as unknown as Json)).patch;

/** Something that the two states say differently, in words. */
export interface Difference {
  readonly what: string;
  readonly mine: string;
  readonly theirs: string;
}

/** A run that one state has otherwise than the other, or not at all. Lengths in mm; null without a scale. */
export interface RunDifference {
  readonly name: string;
  readonly mine: { readonly lengthMm: number | null; readonly pieces: number | null } | null;
  readonly theirs: { readonly lengthMm: number | null; readonly pieces: number | null } | null;
}

const particulars = {
  name: 'Name',
  number: 'Job number',
  client: 'Client',
  site: 'Site',
  state: 'State',
  tenderDate: 'Tender date',
  retainUntil: 'Keep until',
} as const;

const counted = (count: number, one: string, several = `${one}s`): string =>
  `${count} ${count === 1 ? one : several}`;

/** What a person has to know to choose between two states. */
export const differencesOf = (
  mine: ProjectDocument,
  theirs: ProjectDocument,
): { readonly differences: readonly Difference[]; readonly runs: readonly RunDifference[] } => {
  const differences: Difference[] = [];
  const compare = (what: string, own: string, other: string): void => {
    if (own !== other) differences.push({ what, mine: own, theirs: other });
  };
  for (const [key, what] of Object.entries(particulars) as [keyof typeof particulars, string][])
    compare(what, mine.job[key], theirs.job[key]);
  const otherwise = (what: string, own: unknown, other: unknown, words: (value: never) => string): void => {
    if (isSameJson(own, other)) return;
    const [ownWords, otherWords] = [words(own as never), words(other as never)];
    differences.push({
      what,
      mine: ownWords,
      theirs: ownWords === otherWords ? `${otherWords}, other ones` : otherWords,
    });
  };
  otherwise('Addenda', mine.job.addenda, theirs.job.addenda, (list: []) =>
    counted(list.length, 'addendum', 'addenda'),
  );
  otherwise('Questions', mine.job.questions, theirs.job.questions, (list: []) =>
    counted(list.length, 'question'),
  );
  otherwise('Sheets', mine.sheets, theirs.sheets, (sheets: object) =>
    counted(Object.keys(sheets).length, 'sheet'),
  );
  otherwise('Stations', mine.stations, theirs.stations, (stations: object) =>
    counted(Object.keys(stations).length, 'station'),
  );
  otherwise(
    'Stock range',
    mine.stockRange,
    theirs.stockRange,
    ({ id, version }: { id: string; version: number }) => `${id}, version ${version}`,
  );

  const [ownFacts, otherFacts] = [projectFactsOf(mine), projectFactsOf(theirs)];
  const sideOf = (facts: typeof ownFacts, runId: RunId): RunDifference['mine'] => {
    const run = facts.runs.find((one) => one.runId === runId);
    return run ? { lengthMm: runLengthMm(run), pieces: run.pieces } : null;
  };
  const runIds = [...new Set([...mine.runIds, ...theirs.runIds])];
  const runs = runIds
    .filter(
      (runId) =>
        !isSameJson(mine.runs[runId], theirs.runs[runId]) ||
        !isSameJson(mine.keptFits[runId], theirs.keptFits[runId]),
    )
    .map((runId) => ({
      name: mine.runs[runId]?.name ?? theirs.runs[runId]?.name ?? runId,
      mine: sideOf(ownFacts, runId),
      theirs: sideOf(otherFacts, runId),
    }));
  return { differences, runs };
};
