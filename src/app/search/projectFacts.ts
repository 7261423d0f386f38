import type { RunId } from '../../document/ids.ts';
import type { ProjectDocument, Run } from '../../document/projectDocument.ts';
import { runIdsInForce } from '../../document/runsInForce.ts';
import { cornersOf } from '../../measure/corners.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { scaleOfSheet } from '../../measure/scaleOfSheet.ts';
import { straightsOf } from '../../measure/straights.ts';
import { equipmentWord } from '../../services/usualServices.ts';
import { type RunPicture, runPictureOf } from './runPicture.ts';
import { searchWords, sortingKey } from './searchWords.ts';

/**
 * What a project is found by, as plain data: worked out here, where lengths are known, and kept by the store beside
 * the document, in the same transaction. Derived, so that it can be worked out anew at any time.
 */
export interface ProjectFacts {
  /** {@link projectFactsVersion} of the program that worked them out. */
  readonly version: number;
  /** Every word of the job, its runs, stations, bays, low sections and plan file names, folded by `searchWords`. */
  readonly words: readonly string[];
  /** Sorting keys: the folded words with single spaces. */
  readonly nameKey: string;
  readonly numberKey: string;
  readonly clientKey: string;
  readonly retainUntil: string;
  readonly openQuestions: number;
  readonly rangeId: string;
  /** Items of the stock range that are wanted as stations, each once. */
  readonly stations: readonly string[];
  readonly plans: readonly { readonly sha256: string; readonly fileName: string }[];
  readonly runs: readonly RunFacts[];
  readonly picture: RunPicture | null;
}

export interface RunFacts {
  readonly runId: RunId;
  readonly name: string;
  /** Each straight's traced front, in whole mm; empty while the sheet has no scale. */
  readonly straightsMm: readonly number[];
  /** Each corner's turn in degrees, to a tenth; positive where the front is on the outside. */
  readonly turnsDeg: readonly number[];
  /** Pieces of the fit that was kept; null where none was. */
  readonly pieces: number | null;
}

/** Goes up whenever facts may differ from earlier ones, so that kept ones are worked out anew. */
export const projectFactsVersion = 5;

/** The whole front of a run in mm; null while it has no scale. */
export const runLengthMm = ({ straightsMm }: RunFacts): number | null =>
  straightsMm.length === 0 ? null : straightsMm.reduce((sum, length) => sum + length, 0);

const piecesOf = (document: ProjectDocument, runId: RunId): number | null => {
  const kept = document.keptFits[runId];
  if (!kept) return null;
  try {
    const { score } = JSON.parse(kept.alternative) as { readonly score?: { readonly pieces?: unknown } };
    return typeof score?.pieces === 'number' ? score.pieces : null;
  } catch {
    // The document holds the fit as text that the fitting layer reads; what it can't read has no count.
    return null;
  }
};

const partWords = { bay: 'bay', low: 'low section' } as const;

/** Bays and low sections of the runs, by what they are, what they are called and what stands in them. */
const partsOf = (document: ProjectDocument, runs: readonly Run[]): readonly string[] => {
  const own = new Set(runs.map(({ id }) => id));
  return Object.values(document.zones).flatMap(({ runId, kind, name, equipmentKind }) =>
    own.has(runId) && (kind === 'bay' || kind === 'low')
      ? [partWords[kind], name, ...(kind === 'bay' && equipmentKind ? [equipmentWord[equipmentKind]] : [])]
      : [],
  );
};

const runFactsOf = (document: ProjectDocument, run: Run): RunFacts => {
  const scale = scaleOfSheet(document, run.sheetId);
  const traced = runAsTraced(run);
  return {
    runId: run.id,
    name: run.name,
    straightsMm: scale ? straightsOf(traced, scale).map(({ lengthMm }) => Math.round(lengthMm)) : [],
    turnsDeg: cornersOf(traced).map(({ turnDeg }) => Math.round(turnDeg * 10) / 10),
    pieces: piecesOf(document, run.id),
  };
};

/** What a project is found by. */
export const projectFactsOf = (document: ProjectDocument): ProjectFacts => {
  const { job, stockRange } = document;
  // A run of a superseded sheet is the same bar again: a job is found by the run that took its place.
  const runs = runIdsInForce(document).flatMap((runId) => document.runs[runId] ?? []);
  const sheets = document.sheetIds.flatMap((sheetId) => document.sheets[sheetId] ?? []);
  const stations = [...new Set(Object.values(document.stations).map(({ item }) => item))].sort();
  const plans = new Map(sheets.map(({ planSha256, planFileName }) => [planSha256, planFileName]));
  const texts = [
    ...[job.name, job.number, job.client, job.site],
    ...job.addenda.flatMap(({ title, note }) => [title, note]),
    ...job.questions.flatMap(({ question, answer }) => [question, answer]),
    ...runs.map(({ name }) => name),
    ...stations,
    ...partsOf(document, runs),
    ...sheets.flatMap(({ name, planFileName }) => [name, planFileName]),
  ];
  return {
    version: projectFactsVersion,
    words: searchWords(texts.join('\n')),
    nameKey: sortingKey(job.name),
    numberKey: sortingKey(job.number),
    clientKey: sortingKey(job.client),
    retainUntil: job.retainUntil,
    openQuestions: job.questions.filter(({ answer }) => answer === '').length,
    rangeId: stockRange.id,
    stations,
    plans: [...plans].map(([sha256, fileName]) => ({ sha256, fileName })),
    runs: runs.map((run) => runFactsOf(document, run)),
    picture: runPictureOf(document),
  };
};
