import { type DisplayUnit, formatLength } from '../units/formatLength.ts';
import type { ContinuousExample } from './connectedLoad.ts';
import { serviceWord, tradeWord } from './servicePoint.ts';
import type { ServicesSchedule } from './servicesSchedule.ts';

const figure = (value: number, decimals: number): string => value.toFixed(decimals);

const outOfSum = (
  missing: readonly { readonly itemName: string; readonly count: number }[],
): readonly string[] =>
  missing.length === 0
    ? []
    : [
        `Not in the table, and in no sum: ${missing.map(({ itemName, count }) => `${count} x ${itemName}`).join('; ')}.`,
      ];

/** What each trade brings, and how many of each connection. */
export const tradeSentences = ({ trades }: ServicesSchedule): readonly string[] =>
  trades.map(
    ({ trade, points, kinds }) =>
      `${tradeWord[trade]}: ${points} ${points === 1 ? 'point' : 'points'}. ${kinds
        .map(
          ({ kind, points: count, connections }) =>
            `${serviceWord[kind]} ${count} (${connections.map((one) => `${one.count} x ${one.connection}`).join(', ')})`,
        )
        .join('; ')}.`,
  );

/** Waste-water flow, or fixture units, with the table that each factor is from and its limits. */
export const drainageSentences = (
  { drainage, fixtureUnits }: ServicesSchedule,
  units: 'metric' | 'us',
): readonly string[] => {
  if (drainage.counted.length === 0 && drainage.notInTable.length === 0) return [];
  if (units === 'us')
    return [
      `Drainage fixture units by UPC, Table 702.1 (lavatory 1, commercial bar sink 2; from secondary texts): ${fixtureUnits.units} DFU.`,
      ...outOfSum(fixtureUnits.notInTable),
      'An example for places under that code; editions differ, and IPC has its own table. The authority having jurisdiction decides.',
    ];
  const counted = drainage.counted.map(
    ({ appliance, count, unit }) => `${count} x ${appliance.replaceAll('-', ' ')} at ${figure(unit, 1)} l/s`,
  );
  return [
    `Discharge units by EN 12056-2:2000, Table 2, system ${drainage.system}: ${counted.join(', ') || 'none'}; together ${figure(drainage.sumOfUnits, 1)} l/s.`,
    `Waste-water flow, K = ${drainage.frequencyFactor} (Table 3, restaurant): K x square root of the sum, at least the largest unit: ${figure(drainage.flowLitresPerSecond, 2)} l/s.`,
    ...outOfSum(drainage.notInTable),
    'The table’s values are those of households; clause 6.2.3 excludes commercial kitchens. An indication for the drainage designer.',
  ];
};

/** Whether the lines of each straight lie in the services gap. */
export const gapSentences = ({ runs }: ServicesSchedule, unit: DisplayUnit = 'mm'): readonly string[] => {
  const length = (mm: number) => formatLength(unit === 'mm' ? Math.round(mm) : mm, { unit });
  return runs.flatMap(({ run, gaps }) =>
    gaps.map(({ straight, gapMm, lines, acrossMm, fits, marginMm, unread }) => {
      const list = lines.map(({ what, diameterMm }) => `${what} ${length(diameterMm)}`).join(', ');
      const verdict = fits
        ? `lie in the ${length(gapMm)} gap with ${length(marginMm)} to spare`
        : `do not lie in the ${length(gapMm)} gap: ${length(-marginMm)} too little`;
      const also = unread.length === 0 ? '' : ` Size not known for: ${unread.join(', ')}.`;
      return `${run.name}, straight ${straight + 1}: ${list} ${verdict}; the thickest with another crossing it takes ${length(acrossMm)}.${also}`;
    }),
  );
};

/** Loading units of the water, with their table and its limits; nothing where nothing draws water. */
export const waterSentences = ({ water, trades }: ServicesSchedule): readonly string[] => {
  const draws = trades.some(({ kinds }) =>
    kinds.some(({ kind }) => kind === 'cold-water' || kind === 'hot-water'),
  );
  if (!draws) return [];
  return [
    `Loading units by EN 806-3:2006, Table 2 (hand basin 1, sink 2; one unit is 0.1 l/s): cold ${water.cold}, hot ${water.hot}.`,
    ...outOfSum(water.notInTable),
    'The table asks for non-domestic appliances to be checked with their maker. Pipe sizes and backflow protection are the plumber\u2019s.',
  ];
};

/** The connected load, with examples where the code that they come from holds; nothing where nothing draws power. */
export const loadSentences = (
  { load, trades }: ServicesSchedule,
  examples: readonly ContinuousExample[],
): readonly string[] =>
  trades.some(({ trade }) => trade === 'electrical')
    ? [
        `${figure(load.totalKw, 3)} kW, plain sum without diversity.${load.unstatedPoints === 0 ? '' : ` In no sum, because they state no load: ${load.unstatedPoints} ${load.unstatedPoints === 1 ? 'point' : 'points'}.`}`,
        ...examples.map(
          ({ point, amps, leastRatingAmps }) =>
            `Example, NEC 210.20(A), as a continuous single-phase load: ${point.itemName}, ${figure(amps, 1)} A x 125 % = ${figure(leastRatingAmps, 1)} A at least. An electrician decides.`,
        ),
      ]
    : [];
