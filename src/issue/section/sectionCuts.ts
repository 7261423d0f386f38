import type { FloorRun } from '../settingOut/floorPlan.ts';

/** A section through a run: where it is cut, and the letter by which plan, elevation and section know it. */
export interface SectionCut {
  readonly letter: string;
  readonly run: FloorRun;
  readonly straight: number;
  /** Along the traced front from the straight's datum. */
  readonly alongMm: number;
  /** The standing piece that is cut, by its index in the fit. */
  readonly piece: number;
  /** Runs of the same build, for which the section stands too. */
  readonly alsoFor: readonly FloorRun[];
}

/**
 * Sections are lettered from S on: an architect's own sections, which show through from the plan underneath, start at A
 * (ISO 128 letters cuts with capitals, from memory; which ones is our own choice).
 */
const letters = 'STUVWXYZ';
const letterOf = (index: number): string =>
  `${letters[index % letters.length] ?? 'S'}${index < letters.length ? '' : Math.floor(index / letters.length) + 1}`;

/** Shares of a module's width at which it may be cut, best first: clear of its frames and of the mark in its middle. */
const cutShares = [0.76, 0.24, 0.64, 0.36] as const;

interface CutPlace {
  readonly straight: number;
  readonly alongMm: number;
  readonly piece: number;
}

/** The widest plain module that stands in the run, cut where nothing is let into it or stands on it. */
const cutOf = (run: FloorRun): CutPlace | null => {
  const pieces = run.alternative?.pieces ?? [];
  const isStation = (index: number) =>
    run.parts.some((part) => part.kind === 'piece' && part.part === `piece:${index}` && part.isStation);
  const standing = pieces
    .map((piece, index) => ({ piece, index, widthMm: piece.toMm - piece.fromMm }))
    .filter(
      ({ piece, index }) =>
        piece.host === undefined &&
        run.parts.some(
          (part) => part.kind === 'piece' && part.part === `piece:${index}` && part.support === 'standing',
        ),
    )
    .toSorted(
      (one, other) =>
        Number(isStation(one.index)) - Number(isStation(other.index)) ||
        other.widthMm - one.widthMm ||
        one.index - other.index,
    );
  for (const { piece, index, widthMm } of standing)
    for (const share of cutShares) {
      const alongMm = piece.fromMm + share * widthMm;
      const isClear = pieces.every(
        ({ host, fromMm, toMm }) => host !== index || alongMm < fromMm - 20 || alongMm > toMm + 20,
      );
      if (isClear) return { straight: piece.straight, alongMm, piece: index };
    }
  return null;
};

/** One section for each build among fitted runs: runs of equal depth and cladding share theirs. */
export const sectionCuts = (runs: readonly FloorRun[]): readonly SectionCut[] => {
  const builds = new Map<string, FloorRun[]>();
  for (const run of runs) {
    const key = `${run.run.depthMm} ${run.run.allowances.claddingMm}`;
    builds.set(key, [...(builds.get(key) ?? []), run]);
  }
  const cuts: SectionCut[] = [];
  for (const same of builds.values()) {
    const run = same.find((one) => cutOf(one) !== null);
    const place = run && cutOf(run);
    if (run && place)
      cuts.push({
        letter: letterOf(cuts.length),
        run,
        ...place,
        alsoFor: same.filter((other) => other !== run && other.alternative !== null),
      });
  }
  return cuts;
};
