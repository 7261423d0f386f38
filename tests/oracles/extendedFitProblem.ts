import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { type RandomFitSize, randomFitProblem } from './randomFitProblem.ts';
import type { SeededRandom } from './seededRandom.ts';

/** Which of the optional parts of a problem to add. */
export type FitExtension = 'bays' | 'meets' | 'columns' | 'beside' | 'clearOf' | 'handed';

type Straight = FitProblem['straights'][number];
type Item = FitProblem['stock'][number];

/** Some blocked zones and openings of a straight turned into bays, and one more where there is room. */
const withBays = (random: SeededRandom, straight: Straight, stepMm: number): Straight => {
  const { blocked = [], openings = [] } = straight;
  const bays: { id?: string; fromMm: number; toMm: number }[] = [];
  const keep = (zones: readonly (readonly [number, number])[]) =>
    zones.filter(([fromMm, toMm]) => {
      if (random.chance(0.5)) return true;
      bays.push({ ...(random.chance(0.5) ? { id: `bay-${bays.length}` } : {}), fromMm, toMm });
      return false;
    }) as [number, number][];
  const kept = { blocked: keep(blocked), openings: keep(openings) };
  if (blocked.length + openings.length === 0 && random.chance(0.6)) {
    const cells = Math.floor(straight.lengthMm / stepMm);
    const from = random.integer(0, cells - 1);
    bays.push({ fromMm: from * stepMm, toMm: random.integer(from + 1, Math.min(cells, from + 12)) * stepMm });
  }
  return { ...straight, ...kept, bays };
};

/** Up to two columns at the back of a straight, clear of its zones, openings and bays. */
const withColumns = (random: SeededRandom, straight: Straight, depthMm: number, stepMm: number): Straight => {
  const taken = [
    ...(straight.blocked ?? []),
    ...(straight.openings ?? []),
    ...(straight.bays ?? []).map(({ fromMm, toMm }) => [fromMm, toMm] as const),
  ].map(([from, to]) => [from, to] as [number, number]);
  const cells = Math.floor(straight.lengthMm / stepMm);
  const columns: NonNullable<Straight['columns']>[number][] = [];
  for (let count = random.integer(0, 2); count > 0; count -= 1) {
    const fromMm = random.integer(0, cells - 1) * stepMm;
    const toMm = Math.min(cells * stepMm, fromMm + random.integer(1, 8) * stepMm);
    if (taken.some(([from, to]) => fromMm < to && toMm > from)) continue;
    taken.push([fromMm, toMm]);
    columns.push({ fromMm, toMm, depthMm: depthMm * random.pick([0.25, 0.5]) });
  }
  return { ...straight, columns };
};

/** A random problem with some of its optional parts: the same seed gives the same problem. */
export const extendedFitProblem = (
  random: SeededRandom,
  size: RandomFitSize,
  extensions: readonly FitExtension[],
): FitProblem => {
  const has = (extension: FitExtension) => extensions.includes(extension);
  const base = randomFitProblem(random, size);
  let straights: readonly Straight[] = base.straights;
  let stock: readonly Item[] = base.stock;
  let ends = base.ends;
  if (has('bays')) straights = straights.map((straight) => withBays(random, straight, size.stepMm));
  if (has('meets')) {
    const end = (one: FitProblem['ends'][number]) => (random.chance(0.6) ? { kind: 'meets' as const } : one);
    ends = [end(ends[0]), end(ends[1])];
  }
  if (has('columns')) {
    straights = straights.map((straight) => withColumns(random, straight, base.depthMm, size.stepMm));
    stock = stock.map((item) =>
      random.chance(0.6) ? { ...item, depthMm: base.depthMm * random.pick([0.5, 0.75, 1, 1.1]) } : item,
    );
  }
  const others = base.stock.map(({ id }) => id);
  const used = new Set((base.wanted ?? []).map(({ item }) => item));
  if (has('beside')) {
    stock = stock.map((item) =>
      random.chance(used.has(item.id) ? 0.5 : 0.1)
        ? {
            ...item,
            beside: random.chance(0.7) ? [random.pick(others)] : [random.pick(others), random.pick(others)],
          }
        : item,
    );
  }
  if (has('clearOf')) {
    stock = stock.map((item) =>
      random.chance(used.has(item.id) ? 0.6 : 0.1)
        ? {
            ...item,
            clearOf: [
              {
                item: random.chance(0.7) && used.size > 0 ? random.pick([...used]) : random.pick(others),
                distanceMm: random.integer(1, 20) * size.stepMm,
              },
            ],
          }
        : item,
    );
  }
  if (!has('handed')) return { ...base, straights, stock, ends };
  // Some items handed; some wanted ones a pair, of which the other hand may differ in width and price.
  const hands = ['left', 'right'] as const;
  stock = stock.flatMap((item): Item[] => {
    if (!random.chance(used.has(item.id) ? 0.7 : 0.3)) return [item];
    const hand = random.pick(hands);
    if (!used.has(item.id) || random.chance(0.3)) return [{ ...item, hand }];
    const handOf = `${item.id}-pair`;
    const wider = random.chance(0.2) ? 2 * size.stepMm : 0;
    return [
      { ...item, hand, handOf },
      {
        ...item,
        id: `${item.id}-other`,
        widthMm: item.widthMm + wider,
        hand: hand === 'left' ? 'right' : 'left',
        handOf,
        price: random.integer(0, 5),
      },
    ];
  });
  const wanted = (base.wanted ?? []).map((wish) => {
    const pair = stock.find(({ id, handOf }) => id === wish.item && handOf !== undefined)?.handOf;
    if (pair === undefined || random.chance(0.2)) return wish;
    return { ...wish, item: pair, ...(random.chance(0.3) ? { hand: random.pick(hands) } : {}) };
  });
  return { ...base, straights, stock, ends, wanted, startHand: random.pick(hands) };
};
