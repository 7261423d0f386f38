import { demoRange } from '../../../src/stock/demoRange.ts';
import { frontThrough, type Scene, type Zoned } from './elevationScenes.ts';

/** A seeded random generator (mulberry32, public domain): the same seed gives the same run on every machine. */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
};

const names = [
  'Flap',
  'Column C/2',
  'Existing cast iron rainwater riser to remain, boxed in by others',
  'Pass',
  '',
  'Donaudampfschifffahrtsgesellschaftskapitänskajüte',
];

/** A run of one to three straights with walls or open ends, zones with short and long names, and wanted stations. */
export const randomScene = (seed: number): Scene => {
  const random = seeded(seed);
  const between = (low: number, high: number) => low + random() * (high - low);
  const pick = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)]!;
  const count = 1 + Math.floor(random() * 3);
  const backSide = pick(['left', 'right'] as const);
  const lengths = Array.from({ length: count }, () => Math.round(between(1800, 7500) * 10) / 10);
  let heading = 0;
  let at: readonly [number, number] = [0, 0];
  const turns = Array.from({ length: count - 1 }, () => pick([90, 90, -90, 35, -40]));
  const places = lengths.map((length, index) => {
    at = [
      at[0] + length * Math.cos((heading * Math.PI) / 180),
      at[1] + length * Math.sin((heading * Math.PI) / 180),
    ];
    // Two turns the same way round would close the run on itself.
    heading += index === 1 ? -Math.sign(turns[0] ?? 1) * Math.abs(turns[1] ?? 0) : (turns[index] ?? 0);
    return at;
  });
  const zones: Zoned[] = lengths.flatMap((length, straight) =>
    random() < 0.6
      ? [
          (() => {
            const fromMm = between(900, length - 800);
            return {
              kind: pick(['opening', 'blocked'] as const),
              name: pick(names),
              straight,
              fromMm,
              toMm: Math.min(length - 50, fromMm + between(60, 900)),
            };
          })(),
        ]
      : [],
  );
  const stations = demoRange.items.filter(({ kind }) => kind === 'station');
  const wanted = lengths.flatMap((length, straight) =>
    Array.from({ length: Math.floor(random() * 3) }, () => ({
      item: pick(stations).id,
      straight,
      nearMm: between(300, length - 300),
      withinMm: between(50, 900),
    })),
  );
  return {
    name: `Run of seed ${seed}`,
    backSide,
    frontLine: frontThrough(...places),
    ends: [pick(['wall', 'exposed'] as const), pick(['wall', 'exposed'] as const)],
    zones,
    wanted,
    changes: {
      maxWidthMm: pick([null, 900, 1500]),
      allowances: {
        jointMm: pick([0, 2.5]),
        scribeMm: pick([0, 10]),
        endPanelMm: pick([0, 20]),
        claddingMm: pick([0, 25]),
      },
    },
  };
};
