import type { ProjectDocument } from '../../document/projectDocument.ts';
import { isSuperseded, runIdsInForce } from '../../document/runsInForce.ts';
import type { LeftoverVerdict } from '../../fitting/fitAnswer.ts';
import { pieceMarks } from '../../quote/pieceMarks.ts';
import type { PieceVerdict } from '../../quote/wayInVerdicts.ts';
import type { Money } from '../../units/money.ts';
import type { WorkbookInput } from '../workbook/workbookInput.ts';

/**
 * What a takeoff comes to, as plain JSON: what an issue is compared with the next one by. Kept with the issue, so that
 * a later program compares with what was sent out, not with what it would work out now. Lengths in mm.
 */
export interface TakeoffFacts {
  readonly sheets: readonly {
    readonly id: string;
    readonly name: string;
    readonly planSha256: string;
    readonly planFileName: string;
    readonly pageNumber: number;
    /** The sheet that it takes the place of, and what the architect calls it. */
    readonly supersedes: string | null;
    readonly revision: string;
  }[];
  readonly range: { readonly id: string; readonly version: number; readonly name: string };
  readonly runs: readonly RunFacts[];
  /** Null where nothing can be priced. */
  readonly total: Money | null;
  /** Null while no way in is described. */
  readonly wayIn: {
    readonly name: string;
    readonly verdicts: readonly { readonly mark: string; readonly verdict: PieceVerdict }[];
  } | null;
}

export interface RunFacts {
  readonly id: string;
  readonly name: string;
  readonly depthMm: number;
  /** Why it has no fit; the lists below are empty then. */
  readonly notFitted: string | null;
  readonly straights: readonly {
    /** The point of the front line that it starts at. */
    readonly vertexId: string;
    readonly lengthMm: number;
    /** +/- at k = 2. */
    readonly plusMinusMm: number;
  }[];
  readonly corners: readonly { readonly mark: string; readonly made: string }[];
  readonly pieces: readonly PieceFacts[];
  readonly leftovers: readonly {
    readonly mark: string;
    readonly straight: number;
    readonly fromMm: number;
    readonly widthMm: number;
    readonly verdict: LeftoverVerdict;
    readonly confirmed: boolean;
  }[];
  /** Stations that found no place, by their names. */
  readonly leftOut: readonly { readonly wanted: string; readonly name: string }[];
}

export interface PieceFacts {
  readonly mark: string;
  readonly item: string;
  readonly name: string;
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** The wanted station that it answers. */
  readonly wanted: string | null;
}

/** Micrometres are what the solver counts in; finer digits are noise of the arithmetic. */
const toMicrometre = (lengthMm: number): number => Math.round(lengthMm * 1000) / 1000 || 0;

/**
 * The facts of a takeoff that is to be issued.
 *
 * @param total the quote's, or null where there is none.
 */
export const takeoffFacts = (
  document: ProjectDocument,
  { range, runs, notFitted, access }: WorkbookInput,
  total: Money | null,
): TakeoffFacts => {
  const nameOf = (item: string): string => range.items.find(({ id }) => id === item)?.name ?? item;
  const factsOf = new Map(
    runs.map(({ run, number, problem, alternative }): [string, RunFacts] => {
      const marks = pieceMarks(number, alternative);
      return [
        run.id,
        {
          id: run.id,
          name: run.name,
          depthMm: run.depthMm,
          notFitted: null,
          straights: problem.straights.map(({ lengthMm, uncertaintyMm }, index) => ({
            vertexId: run.frontLine[index]?.id ?? String(index),
            lengthMm: toMicrometre(lengthMm),
            plusMinusMm: toMicrometre(uncertaintyMm ?? 0),
          })),
          corners: alternative.corners.map(({ treatment, item }, index) => ({
            mark: marks.corners[index] ?? '',
            made: item === undefined ? treatment : `${treatment} ${item}`,
          })),
          pieces: alternative.pieces.map(({ straight, item, fromMm, toMm, wanted }, index) => ({
            mark: marks.pieces[index] ?? '',
            item,
            name: nameOf(item),
            straight,
            fromMm: toMicrometre(fromMm),
            toMm: toMicrometre(toMm),
            wanted: wanted ?? null,
          })),
          leftovers: alternative.leftovers.map(
            ({ straight, fromMm, widthMm, verdict, confirmed }, index) => ({
              mark: marks.leftovers[index] ?? '',
              straight,
              fromMm: toMicrometre(fromMm),
              widthMm: toMicrometre(widthMm),
              verdict,
              confirmed,
            }),
          ),
          leftOut: (alternative.leftOut ?? []).map(({ wanted, item }) => ({ wanted, name: nameOf(item) })),
        },
      ];
    }),
  );
  return {
    sheets: document.sheetIds.flatMap((id) => {
      const sheet = document.sheets[id];
      if (!sheet || isSuperseded(document, id)) return [];
      const { name, planSha256, planFileName, pageNumber, revisionOf } = sheet;
      const revised = { supersedes: revisionOf?.supersedes ?? null, revision: revisionOf?.revision ?? '' };
      return [{ id, name, planSha256, planFileName, pageNumber, ...revised }];
    }),
    range: { id: range.id, version: range.version, name: range.name },
    runs: runIdsInForce(document).flatMap((id): readonly RunFacts[] => {
      const run = document.runs[id];
      if (!run) return [];
      const found = factsOf.get(id);
      if (found) return [found];
      const why = notFitted.find(({ name }) => name === run.name)?.why ?? '';
      const none = { straights: [], corners: [], pieces: [], leftovers: [], leftOut: [] };
      return [{ id, name: run.name, depthMm: run.depthMm, notFitted: why, ...none }];
    }),
    total,
    wayIn: access && {
      name: access.wayIn.name,
      verdicts: access.groups.flatMap(({ marks, verdict }) => marks.map((mark) => ({ mark, verdict }))),
    },
  };
};
