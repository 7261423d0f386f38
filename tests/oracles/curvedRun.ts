import { apartMm, type CurvedModule, curvedModule } from '../../src/fitting/curvedModule.ts';
import { contractWords, type FitWords } from '../../src/fitting/fitWords.ts';
import { leftoverVerdict } from '../../src/fitting/leftoverVerdict.ts';
import { micrometres } from '../../src/fitting/micrometre.ts';
import type { CurvedFit, CurvedLeftover } from './curvedFit.ts';
import { type CurvedProblem, curvedLimits } from './curvedProblem.ts';

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
const shareOut = (arcMm: number, places: number, uncertaintyMm: number, fillerMaxMm: number) => {
  if (arcMm <= 1e-6 || places === 0) return { parts: [] as number[], madeToMeasure: 0, fillers: 0 };
  if (arcMm <= uncertaintyMm) {
    return { parts: places === 2 ? [arcMm / 2, arcMm / 2] : [arcMm], madeToMeasure: 0, fillers: 0 };
  }
  const whole = leftoverVerdict(arcMm, arcMm, 0, fillerMaxMm);
  const isSplit = whole === 'made-to-measure' && places === 2 && arcMm / 2 <= fillerMaxMm;
  const parts = isSplit ? [arcMm / 2, arcMm / 2] : [arcMm];
  return {
    parts,
    madeToMeasure: isSplit || whole === 'filler' ? 0 : 1,
    fillers: isSplit ? 2 : whole === 'filler' ? 1 : 0,
  };
};

/** Half of the angle between the corners of a module's front, as seen from the centre. */
const frontHalfRad = (module: CurvedModule, front: 'outside' | 'inside'): number =>
  front === 'outside' ? module.narrowHalfAngleRad : module.halfAngleRad;

/** "2 400 + 2 x 1 200". */
const sumWords = (widthsMm: readonly number[], words: FitWords): string => {
  const counts = new Map<number, number>();
  for (const widthMm of widthsMm) counts.set(widthMm, (counts.get(widthMm) ?? 0) + 1);
  return [...counts]
    .map(([widthMm, count]) => `${count > 1 ? `${count} x ` : ''}${words.bare(micrometres(widthMm))}`)
    .join(' + ');
};

/** Why a curve is filled as it is: its modules, the wedges between them, how far its top overhangs, what is left over. */
const curveWords = (
  arcMm: number,
  { pieces, wedges, leftovers }: Pick<CurvedFit, 'pieces' | 'wedges' | 'leftovers'>,
  words: FitWords,
): string => {
  const length = (mm: number) => words.length(micrometres(mm));
  const sentences = [
    `An arc of ${length(arcMm)} along the front takes ${
      sumWords(
        pieces.map(({ widthMm }) => widthMm),
        words,
      ) || 'no module'
    }`,
  ];
  if (wedges.length > 0) {
    const widest = Math.max(...wedges.map(({ frontMm, backMm }) => Math.max(frontMm, backMm)));
    const wedge =
      wedges.length === 1 ? 'the wedge between them is' : `the ${wedges.length} wedges between them are`;
    sentences.push(`${wedge} made to measure, up to ${length(widest)} wide`);
  }
  if (pieces.length > 0) {
    const overhangMm = Math.max(...pieces.map((piece) => piece.overhangMm));
    sentences.push(`the top overhangs a front by up to ${length(overhangMm)}`);
  }
  const verdicts = {
    closes: 'closes',
    filler: 'is a filler',
    'made-to-measure': 'is made to measure',
  } as const;
  for (const { arcMm: leftMm, verdict } of leftovers)
    sentences.push(`${length(leftMm)} ${verdicts[verdict]}`);
  return `${sentences.join('; ')}.`;
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
export const curvedRun = (problem: CurvedProblem, words: FitWords = contractWords): CurvedFit => {
  const fit = solveCurve(problem, words);
  const { uncertaintyMm = 0, radiusMm, sweepDeg } = problem;
  if (uncertaintyMm === 0 || fit.leftovers.length === 0) return fit;
  const kindOf = ({ pieces, leftovers }: CurvedFit) =>
    JSON.stringify([pieces.map(({ item }) => item), leftovers.map(({ verdict }) => verdict)]);
  const holds = [-uncertaintyMm, uncertaintyMm].every((byMm) => {
    const changedDeg = sweepDeg + (byMm / radiusMm) * (180 / Math.PI);
    return changedDeg > 0 && kindOf(solveCurve({ ...problem, sweepDeg: changedDeg }, words)) === kindOf(fit);
  });
  return { ...fit, leftovers: fit.leftovers.map((leftover) => ({ ...leftover, confirmed: holds })) };
};

const solveCurve = (problem: CurvedProblem, words: FitWords): CurvedFit => {
  const { radiusMm, front, ends, fillerMaxMm, uncertaintyMm = 0, jointMm = 0 } = problem;
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
    const { madeToMeasure, fillers } = shareOut(arcMm, places, uncertaintyMm, fillerMaxMm);
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
      endWedges: [],
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
  const { parts, madeToMeasure, fillers } = shareOut(leftRad * radiusMm, places, uncertaintyMm, fillerMaxMm);
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
      fromMm: rounded((fromRad + angleRad / 2 - frontHalfRad(module, front)) * radiusMm),
      toMm: rounded((fromRad + angleRad / 2 + frontHalfRad(module, front)) * radiusMm),
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
  const endWedges = (['start', 'end'] as const).flatMap((at) => {
    const module = (at === 'start' ? chosen[0] : chosen.at(-1))?.module;
    if (module === undefined) return [];
    const openRad = module.halfAngleRad - module.narrowHalfAngleRad;
    // From the corner at the open side, square to the line across the counter.
    const wideMm = rounded(module.openMm * Math.sin(openRad));
    return [
      {
        at,
        angleDeg: degrees(module.halfAngleRad),
        frontMm: front === 'outside' ? wideMm : 0,
        backMm: front === 'outside' ? 0 : wideMm,
      },
    ];
  });
  const leftover = (fromRad: number, arcMm: number): CurvedLeftover => ({
    fromDeg: degrees(fromRad),
    toDeg: degrees(fromRad + arcMm / radiusMm),
    arcMm: rounded(arcMm),
    verdict: leftoverVerdict(arcMm, leftRad * radiusMm, uncertaintyMm, fillerMaxMm),
    confirmed: true,
  });
  const leftovers = [
    ...(startRad > 0 ? [leftover(0, parts[0]!)] : []),
    ...(parts.length > 0 && (parts.length === 2 || startRad === 0)
      ? [leftover(sweepRad - parts.at(-1)! / radiusMm, parts.at(-1)!)]
      : []),
  ];
  return {
    status: tries > maxTries ? 'stopped' : 'optimal',
    pieces,
    wedges,
    endWedges,
    leftovers,
    score: {
      madeToMeasure,
      leftoverMm: rounded(leftovers.reduce((sum, one) => sum + one.arcMm, 0)),
      fillers,
      pieces: pieces.length,
      wedges: wedges.length,
      price: Math.round(chosen.reduce((sum, { price }) => sum + price, 0) * 10_000) / 10_000,
    },
    explanation: curveWords(rounded(sweepRad * radiusMm), { pieces, wedges, leftovers }, words),
  };
};
