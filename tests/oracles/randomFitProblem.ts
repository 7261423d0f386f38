import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import type { SeededRandom } from './seededRandom.ts';

/** How large a random problem may become, and the step that all its lengths are multiples of. */
export interface RandomFitSize {
  readonly stepMm: number;
  readonly straights: number;
  readonly lengthMm: readonly [number, number];
  readonly widthMm: readonly [number, number];
  readonly stock: number;
  readonly wanted: number;
  readonly oddAngles: boolean;
}

type Zone = [number, number];

const zonesIn = (random: SeededRandom, lengthMm: number, step: (low: number, high: number) => number) => {
  const zones: { kind: 'blocked' | 'openings'; zone: Zone }[] = [];
  let fromMm = 0;
  while (random.chance(0.35) && zones.length < 3) {
    const startMm = step(fromMm, lengthMm);
    const endMm = step(startMm, Math.min(lengthMm, startMm + lengthMm / 3));
    if (endMm > startMm)
      zones.push({ kind: random.chance(0.5) ? 'blocked' : 'openings', zone: [startMm, endMm] });
    fromMm = endMm;
  }
  return zones;
};

/** A random problem of every kind that DESIGN section 5 speaks of: the same seed gives the same problem. */
export const randomFitProblem = (random: SeededRandom, size: RandomFitSize): FitProblem => {
  const step = (low: number, high: number) =>
    size.stepMm *
    random.integer(
      Math.ceil(low / size.stepMm),
      Math.max(Math.ceil(low / size.stepMm), Math.floor(high / size.stepMm)),
    );
  const [minMm, maxMm] = size.lengthMm;
  const straightCount = random.integer(1, size.straights);
  const straights = Array.from({ length: straightCount }, () => {
    const lengthMm = step(minMm, maxMm);
    const zones = zonesIn(random, lengthMm, step);
    const of = (kind: string) => zones.filter((zone) => zone.kind === kind).map(({ zone }) => zone);
    return {
      lengthMm,
      ...(random.chance(0.4) ? { uncertaintyMm: step(0, size.stepMm * 4) } : {}),
      ...(of('blocked').length > 0 ? { blocked: of('blocked') } : {}),
      ...(of('openings').length > 0 ? { openings: of('openings') } : {}),
    };
  });
  const depthMm = step(size.widthMm[0], size.widthMm[1]);
  const treatments = ['first-through', 'second-through', 'corner-unit', 'mitre'] as const;
  const corners = straights.slice(1).map(() => {
    if (size.oddAngles && random.chance(0.3)) {
      return { turnDeg: random.pick([-1, 1]) * random.pick([30, 45, 60, 89, 120, 135]) };
    }
    const turnDeg = random.pick([-90, 90, 90]);
    // A mitre pinned at a right angle takes depth x tan(45), still on the grid.
    return random.chance(0.2) ? { turnDeg, treatment: random.pick(treatments) } : { turnDeg };
  });
  const end = () => {
    if (random.chance(0.5)) return { kind: 'wall' as const };
    return random.chance(0.5)
      ? { kind: 'exposed' as const }
      : { kind: 'exposed' as const, giveMm: [step(0, 4 * size.stepMm), step(0, 4 * size.stepMm)] as Zone };
  };
  const stock: FitProblem['stock'][number][] = [];
  const stockCount = random.integer(1, size.stock);
  for (let index = 0; index < stockCount; index += 1) {
    stock.push({
      id: `S${index}`,
      widthMm: step(size.widthMm[0], size.widthMm[1]),
      support: random.chance(0.85) ? 'standing' : 'carried',
      ...(random.chance(0.1) ? { fill: random.chance(0.7) } : {}),
      ...(random.chance(0.7) ? { price: random.integer(0, 9) } : {}),
    });
  }
  const special = (['standing', 'carried', 'drop-in', 'countertop'] as const).map((support) => ({
    id: `W-${support}`,
    widthMm:
      support === 'standing' || support === 'carried'
        ? step(...size.widthMm)
        : step(size.stepMm, size.widthMm[0]),
    support,
    ...(support === 'standing' ? { fill: false } : {}),
    price: random.integer(0, 5),
  }));
  stock.push(...special);
  const wanted = Array.from({ length: random.integer(0, size.wanted) }, (_, index) => {
    const straight = random.integer(0, straightCount - 1);
    return {
      id: `w${index}`,
      item: random.chance(0.15) ? random.pick(stock).id : random.pick(special).id,
      straight,
      nearMm: step(0, straights[straight]!.lengthMm),
      withinMm: step(0, random.chance(0.2) ? straights[straight]!.lengthMm : 8 * size.stepMm),
    };
  });
  const allowance = () => (random.chance(0.5) ? 0 : step(0, 2 * size.stepMm));
  return {
    depthMm,
    straights,
    corners,
    ends: [end(), end()],
    stock,
    ...(random.chance(0.5)
      ? {
          cornerUnits: Array.from({ length: random.integer(1, 2) }, (_, index) => ({
            id: `C${index}`,
            sizeMm: step(depthMm - size.stepMm, depthMm + 4 * size.stepMm),
            price: random.integer(0, 9),
          })),
        }
      : {}),
    wanted,
    ...(random.chance(0.6)
      ? {
          allowances: {
            jointMm: random.chance(0.5) ? 0 : size.stepMm,
            scribeMm: allowance(),
            endPanelMm: allowance(),
            claddingMm: allowance(),
          },
        }
      : {}),
    fillerMaxMm: step(0, 8 * size.stepMm),
    hostMarginMm: random.chance(0.5) ? 0 : size.stepMm,
    ...(random.chance(0.1) ? { maxWidthMm: step(...size.widthMm) } : {}),
  };
};
