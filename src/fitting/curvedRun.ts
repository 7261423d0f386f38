import { apartMm, type CurvedModule, curvedModule } from './curvedModule.ts';
import { type CurvedProblem, curvedLimits } from './curvedProblem.ts';
import type { LeftoverVerdict } from './fitAnswer.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';

/** A module on the curve. Angles in degrees from the start of the front, overhang of the curved top in mm. */
export interface CurvedPiece {
  readonly item: string;
  readonly widthMm: number;
  /** The angle that it takes at its widest as seen from the centre. */
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly overhangMm: number;
}

/** The made-to-measure wedge between two neighbours: nearly nothing at one side, open at the other. */
export interface CurvedWedge {
  /** Index of the piece before it. */
  readonly after: number;
  readonly angleDeg: number;
  readonly frontMm: number;
  readonly backMm: number;
}

export interface CurvedLeftover {
  readonly fromDeg: number;
  readonly toDeg: number;
  /** Along the front line. */
  readonly arcMm: number;
  readonly verdict: LeftoverVerdict;
}

/** The answer for a curved run. */
export interface CurvedFit {
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  readonly pieces: readonly CurvedPiece[];
  readonly wedges: readonly CurvedWedge[];
  readonly leftovers: readonly CurvedLeftover[];
  readonly score: {
    /** Leftovers that are made to measure; the wedges are counted apart. */
    readonly madeToMeasure: number;
    readonly leftoverMm: number;
    readonly fillers: number;
    readonly pieces: number;
    readonly wedges: number;
    readonly price: number;
  };
  readonly explanation: string;
}

interface Kind {
  readonly id: string;
  readonly module: CurvedModule;
  readonly price: number;
  readonly angleRad: number;
}

interface Choice {
  readonly counts: readonly number[];
  readonly key: readonly number[];
}

/** Tries of one more piece after which the search stops and proves nothing. */
const maxTries = 3_000_000;

const degrees = (rad: number): number => Math.round((rad * 180e9) / Math.PI) / 1e9;
const rounded = (mm: number): number => Math.round(mm * 1000) / 1000;

const isFirst = (a: readonly number[], b: readonly number[]): boolean => {
  for (const [place, value] of a.entries()) {
    if (Math.abs(value - b[place]!) > 1e-9) return value < b[place]!;
  }
  return false;
};

/** How a leftover of this length along the front is shared out over the ends that may have one. */
const shareOut = (arcMm: number, places: number, fillerMaxMm: number) => {
  if (arcMm <= 1e-6 || places === 0) return { parts: [] as number[], madeToMeasure: 0, fillers: 0 };
  const whole = leftoverVerdict(arcMm, arcMm, 0, fillerMaxMm);
  const isSplit = whole === 'made-to-measure' && places === 2 && arcMm / 2 <= fillerMaxMm;
  const parts = isSplit ? [arcMm / 2, arcMm / 2] : [arcMm];
  return {
    parts,
    madeToMeasure: isSplit || whole === 'filler' ? 0 : 1,
    fillers: isSplit ? 2 : whole === 'filler' ? 1 : 0,
  };
};

const usableKinds = (problem: CurvedProblem): readonly Kind[] => {
  const { radiusMm, depthMm, front, overhangMaxMm = Number.POSITIVE_INFINITY } = problem;
  const byWidth = new Map<number, Kind>();
  for (const { id, widthMm, price = 0 } of problem.stock) {
    if (widthMm > (problem.maxWidthMm ?? Number.POSITIVE_INFINITY)) continue;
    const module = curvedModule(widthMm, radiusMm, depthMm, front);
    if (module === undefined || module.overhangMm > overhangMaxMm) continue;
    const known = byWidth.get(widthMm);
    if (known !== undefined && (known.price < price || (known.price === price && known.id < id))) continue;
    byWidth.set(widthMm, { id, module, price, angleRad: 2 * module.halfAngleRad });
  }
  return [...byWidth.values()].sort((a, b) => b.module.widthMm - a.module.widthMm);
};

/**
 * Fills a run whose front is one circular arc with straight-fronted modules. Each module takes the sector in which it
 * lies as seen from the centre (see `curvedModule`), so that neighbours never overlap; neighbours stand `jointMm` apart
 * at least where they are nearest, and the wedge between them, which opens to the front where the front is outside and
 * to the back where it is inside, is made to measure. Best is, in this order: fewest made-to-measure leftovers, least
 * left over along the front, fewest fillers, fewest pieces (and with them wedges), lowest price, widest pieces first.
 * Leftovers lie at ends that are not exposed. Every selection of modules is tried that can matter; where that takes too
 * many tries the status says `stopped`.
 */
export const curvedRun = (problem: CurvedProblem): CurvedFit => {
  const { radiusMm, front, ends, fillerMaxMm, jointMm = 0 } = problem;
  const kinds = usableKinds(problem);
  const sweepRad = (problem.sweepDeg * Math.PI) / 180;
  const places = ends.filter((end) => end !== 'exposed').length;
  // The nearest corners of any two lie no nearer to the centre than these.
  const contactMm = Math.min(...kinds.map(({ module }) => module.contactMm));
  const jointRad = kinds.length === 0 ? 0 : 2 * Math.asin(Math.min(1, jointMm / (2 * contactMm)));
  let best: Choice | undefined;
  let tries = 0;
  const offer = (counts: readonly number[], pieces: number, leftRad: number): void => {
    const arcMm = leftRad * radiusMm;
    // Exposed ends on both sides leave nothing over but what rounding makes.
    if (places === 0 && (arcMm > 0.001 || pieces === 0)) return;
    const { madeToMeasure, fillers } = shareOut(arcMm, places, fillerMaxMm);
    const price = counts.reduce((sum, count, index) => sum + count * kinds[index]!.price, 0);
    const key = [
      madeToMeasure,
      places === 0 ? 0 : arcMm,
      fillers,
      pieces,
      price,
      ...counts.map((count) => -count),
    ];
    if (best === undefined || isFirst(key, best.key)) best = { counts, key };
  };
  const choose = (index: number, counts: readonly number[], pieces: number, leftRad: number): void => {
    tries += 1;
    if (tries > maxTries) return;
    const kind = kinds[index];
    if (kind === undefined) {
      offer(counts, pieces, leftRad);
      return;
    }
    const stepRad = kind.angleRad + jointRad;
    const most = Math.min(
      curvedLimits.pieces - pieces,
      Math.floor((leftRad + (pieces === 0 ? jointRad : 0)) / stepRad + 1e-12),
    );
    // Of the last kind as many as there is room for: more of it only leaves less over.
    const least = index === kinds.length - 1 ? most : 0;
    for (let count = most; count >= least; count -= 1) {
      const firstRad = pieces === 0 && count > 0 ? jointRad : 0;
      const restRad = Math.max(0, leftRad - count * stepRad + firstRad);
      choose(index + 1, [...counts, count], pieces + count, restRad);
    }
  };
  choose(0, [], 0, sweepRad);
  if (best === undefined) {
    return {
      status: tries > maxTries ? 'stopped' : 'infeasible',
      pieces: [],
      wedges: [],
      leftovers: [],
      score: { madeToMeasure: 0, leftoverMm: 0, fillers: 0, pieces: 0, wedges: 0, price: 0 },
      explanation:
        'Both ends are exposed, so nothing may be left over, and no selection of modules takes exactly this arc.',
    };
  }
  const chosen = kinds.flatMap((kind, index) => Array.from({ length: best!.counts[index]! }, () => kind));
  const usedRad = chosen.reduce(
    (sum, { angleRad }) => sum + angleRad + jointRad,
    chosen.length > 0 ? -jointRad : 0,
  );
  const leftRad = Math.max(0, sweepRad - usedRad);
  const { parts, madeToMeasure, fillers } = shareOut(leftRad * radiusMm, places, fillerMaxMm);
  const startRad =
    parts.length === 2 || (parts.length === 1 && ends[0] !== 'exposed') ? parts[0]! / radiusMm : 0;
  let atRad = startRad;
  const pieces = chosen.map(({ id, module, angleRad }) => {
    const fromRad = atRad;
    atRad += angleRad + jointRad;
    return {
      item: id,
      widthMm: module.widthMm,
      fromDeg: degrees(fromRad),
      toDeg: degrees(fromRad + angleRad),
      overhangMm: rounded(module.overhangMm),
    };
  });
  const wedges = chosen.slice(1).map(({ module: after }, index) => {
    const before = chosen[index]!.module;
    const openRad =
      jointRad +
      (before.halfAngleRad - before.narrowHalfAngleRad) +
      (after.halfAngleRad - after.narrowHalfAngleRad);
    const wideMm = rounded(apartMm(before.openMm, after.openMm, openRad));
    const narrowMm = rounded(apartMm(before.contactMm, after.contactMm, jointRad));
    return {
      after: index,
      angleDeg: degrees(before.halfAngleRad + after.halfAngleRad + jointRad),
      frontMm: front === 'outside' ? wideMm : narrowMm,
      backMm: front === 'outside' ? narrowMm : wideMm,
    };
  });
  const leftover = (fromRad: number, arcMm: number): CurvedLeftover => ({
    fromDeg: degrees(fromRad),
    toDeg: degrees(fromRad + arcMm / radiusMm),
    arcMm: rounded(arcMm),
    verdict: leftoverVerdict(arcMm, arcMm, 0, fillerMaxMm),
  });
  const leftovers = [
    ...(startRad > 0 ? [leftover(0, parts[0]!)] : []),
    ...(parts.length > 0 && (parts.length === 2 || startRad === 0)
      ? [leftover(sweepRad - parts.at(-1)! / radiusMm, parts.at(-1)!)]
      : []),
  ];
  const overhangMm = Math.max(0, ...pieces.map((piece) => piece.overhangMm));
  const widths = pieces.map(({ widthMm }) => widthMm).join(' + ') || 'no module';
  const arcMm = rounded(sweepRad * radiusMm);
  return {
    status: tries > maxTries ? 'stopped' : 'optimal',
    pieces,
    wedges,
    leftovers,
    score: {
      madeToMeasure,
      leftoverMm: rounded(leftovers.reduce((sum, one) => sum + one.arcMm, 0)),
      fillers,
      pieces: pieces.length,
      wedges: wedges.length,
      price: Math.round(chosen.reduce((sum, { price }) => sum + price, 0) * 10_000) / 10_000,
    },
    explanation: `An arc of ${arcMm} along the front takes ${widths}; ${wedges.length} wedges are made to measure, the top overhangs a front by up to ${overhangMm}.`,
  };
};
