import type { FloorRun, FloorZone } from '../settingOut/floorPlan.ts';

/** What is cut: a standing piece, by its index in the fit, or a bay or low section. */
export type CutThrough =
  | { readonly kind: 'piece'; readonly piece: number }
  | { readonly kind: 'zone'; readonly zone: FloorZone };

/** A section through a run: where it is cut, and the letter by which plan, elevation and section know it. */
export interface SectionCut {
  readonly letter: string;
  readonly run: FloorRun;
  readonly straight: number;
  /** Along the traced front from the straight's datum. */
  readonly alongMm: number;
  readonly through: CutThrough;
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

type CutPlace = Pick<SectionCut, 'straight' | 'alongMm' | 'through'>;

/** The widest plain module that stands in the run, cut where nothing is let into it or stands on it. */
const cutOf = (run: FloorRun): CutPlace | null => {
  const pieces = run.alternative?.pieces ?? [];
  const isStation = (index: number) =>
    run.parts.some((part) => part.kind === 'piece' && part.part === `piece:${index}` && part.isStation);
  const standing = pieces
    .map((piece, index) => ({ piece, index, widthMm: piece.widthMm ?? piece.toMm - piece.fromMm }))
    .filter(
      ({ piece, index }) =>
        piece.host === undefined &&
        // Square to an arc nothing else is cut square.
        run.straights[piece.straight]?.bend === undefined &&
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
      if (isClear) return { straight: piece.straight, alongMm, through: { kind: 'piece', piece: index } };
    }
  return null;
};

/** Where the bays and low sections of a run are cut, one of each kind and size. */
const zoneCutsOf = (run: FloorRun): readonly (CutPlace & { readonly build: string })[] => {
  const found = new Map<string, CutPlace & { readonly build: string }>();
  for (const zone of run.zones) {
    if (zone.kind !== 'bay' && zone.kind !== 'low') continue;
    const { kind, topHeightMm, clearance, services = [] } = zone;
    const comesUp = services.map(
      ({ kind: what, heightMm, connection }) => `${what} ${heightMm} ${connection}`,
    );
    const build = [kind, topHeightMm, clearance?.heightMm, clearance?.doorSwingMm, ...comesUp.sort()].join(
      ' ',
    );
    if (found.has(build)) continue;
    const alongMm = zone.fromMm + cutShares[0] * (zone.toMm - zone.fromMm);
    found.set(build, { straight: zone.straight, alongMm, through: { kind: 'zone', zone }, build });
  }
  return [...found.values()];
};

/**
 * One section for each build among fitted runs, through a module, and through each kind of bay and low section: runs of
 * equal depth, cladding and levels share theirs.
 */
export const sectionCuts = (runs: readonly FloorRun[]): readonly SectionCut[] => {
  const builds = new Map<string, { readonly place: CutPlace; readonly runs: FloorRun[] }>();
  for (const run of runs) {
    if (run.alternative === null) continue;
    const module = cutOf(run);
    const own = [...(module ? [{ ...module, build: 'module' }] : []), ...zoneCutsOf(run)];
    const shared = `${run.run.depthMm} ${run.run.allowances.claddingMm} ${JSON.stringify(run.run.levels ?? null)}`;
    for (const { build, ...place } of own) {
      const key = `${shared} ${build}`;
      const same = builds.get(key);
      if (same) same.runs.push(run);
      else builds.set(key, { place, runs: [run] });
    }
  }
  return [...builds.values()].map(
    ({ place, runs: [run, ...alsoFor] }, index): SectionCut => ({
      letter: letterOf(index),
      run: run!,
      ...place,
      alsoFor,
    }),
  );
};
