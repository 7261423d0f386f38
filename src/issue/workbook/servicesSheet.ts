import { pieceMarks } from '../../quote/pieceMarks.ts';
import { continuousExamples } from '../../services/connectedLoad.ts';
import { serviceWord, tradeWord } from '../../services/servicePoint.ts';
import { datumOf } from '../../services/servicePoints.ts';
import { NO_SERVICES_NOTE } from '../../services/servicesCautions.ts';
import { type ServicesSchedule, servicesSchedule } from '../../services/servicesSchedule.ts';
import { cells, gap, millimetres, number, section, text, totalGap } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { columnSum } from './tableTotals.ts';
import { headingRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

const figure = (value: number, decimals: number): string => value.toFixed(decimals);

const tradeSentences = ({ trades }: ServicesSchedule): readonly string[] =>
  trades.map(
    ({ trade, points, kinds }) =>
      `${tradeWord[trade]}: ${points} points. ${kinds
        .map(
          ({ kind, points: count, connections }) =>
            `${serviceWord[kind]} ${count} (${connections.map((one) => `${one.count} x ${one.connection}`).join(', ')})`,
        )
        .join('; ')}.`,
  );

const drainageSentences = ({ drainage }: ServicesSchedule): readonly string[] => {
  if (drainage.counted.length === 0 && drainage.notInTable.length === 0) return [];
  const counted = drainage.counted.map(
    ({ appliance, count, unit }) => `${count} x ${appliance.replaceAll('-', ' ')} at ${figure(unit, 1)} l/s`,
  );
  return [
    `Discharge units by EN 12056-2:2000, Table 2, system ${drainage.system}: ${counted.join(', ') || 'none'}; together ${figure(drainage.sumOfUnits, 1)} l/s.`,
    `Waste-water flow, K = ${drainage.frequencyFactor} (Table 3, restaurant): K x square root of the sum, at least the largest unit: ${figure(drainage.flowLitresPerSecond, 2)} l/s.`,
    ...(drainage.notInTable.length === 0
      ? []
      : [
          `Not in the table, and in no sum: ${drainage.notInTable.map(({ itemName, count }) => `${count} x ${itemName}`).join('; ')}.`,
        ]),
    'The table’s values are those of households; clause 6.2.3 excludes commercial kitchens. An indication for the drainage designer.',
  ];
};

const gapSentences = ({ runs }: ServicesSchedule): readonly string[] =>
  runs.flatMap(({ run, gaps }) =>
    gaps.map(({ straight, gapMm, lines, acrossMm, fits, marginMm, unread }) => {
      const list = lines.map(({ what, diameterMm }) => `${what} ${figure(diameterMm, 0)} mm`).join(', ');
      const verdict = fits
        ? `lie in the ${gapMm} mm gap with ${figure(marginMm, 0)} mm to spare`
        : `do not lie in the ${gapMm} mm gap: ${figure(-marginMm, 0)} mm too little`;
      const also = unread.length === 0 ? '' : ` Size not known for: ${unread.join(', ')}.`;
      return `${run.name}, straight ${straight + 1}: ${list} ${verdict}; the thickest with another crossing it takes ${figure(acrossMm, 0)} mm.${also}`;
    }),
  );

/** What comes up where, set out from each straight's datum, with totals per trade and the cautions that go with it. */
export const servicesSheet = (input: WorkbookInput): WorkbookSheet => {
  const schedule = servicesSchedule(input.runs, input.range);
  const above = sheetHead(
    'Services',
    input,
    'Services rough-in, for setting out. Licensed trades and local codes decide. Heights are above finished floor.',
  );
  const rows = schedule.runs.flatMap(({ run, points }, index) => {
    const own = input.runs[index];
    const marks = own ? pieceMarks(own.number, own.alternative) : { pieces: [] };
    return points.map((point) => ({ run, point, mark: marks.pieces[point.pieceIndex] ?? '' }));
  });
  const span = { first: headingRow({ above }) + 1, count: rows.length };
  const examples = continuousExamples(rows.map(({ point }) => point));
  return {
    name: 'Services',
    above,
    columns: [
      { heading: 'Mark', width: 9 },
      { heading: 'Run', width: 16 },
      { heading: 'For', width: 28 },
      { heading: 'Service', width: 12 },
      { heading: 'Trade', width: 14 },
      { heading: 'Connection', width: 14 },
      { heading: 'Count', width: 7 },
      { heading: 'Load (kW)', width: 9 },
      { heading: 'Datum', width: 36 },
      { heading: 'Along from datum (mm)', width: 12 },
      { heading: '+/- (mm, k = 2)', width: 9 },
      { heading: 'From back line (mm)', width: 11 },
      { heading: 'Height (mm)', width: 9 },
    ],
    rows: [
      ...rows.map(({ run, point, mark }) =>
        cells(
          text(mark),
          text(run.name),
          text(point.itemName),
          text(serviceWord[point.kind]),
          text(tradeWord[point.trade]),
          text(point.connection),
          number(point.count, 'count'),
          number(point.loadKw, 'kilowatts'),
          text(datumOf(run, point.straight)),
          millimetres(point.alongMm),
          number(Math.ceil(point.plusMinusMm * 10 - 1e-6) / 10, 'millimetres'),
          millimetres(point.fromBackMm),
          millimetres(point.heightMm),
        ),
      ),
      gap,
      cells(
        text('Total', 'total-text'),
        ...totalGap(5),
        columnSum(
          6,
          span,
          rows.map(({ point }) => point.count),
          'total-count',
          0,
        ),
        columnSum(
          7,
          span,
          rows.map(({ point }) => point.loadKw),
          'total-kilowatts',
          3,
        ),
      ),
      ...section('Per trade', rows.length === 0 ? [NO_SERVICES_NOTE] : tradeSentences(schedule)),
      ...section(
        'Connected load',
        rows.some(({ point }) => point.kind === 'power')
          ? [
              `${figure(schedule.load.totalKw, 3)} kW, plain sum without diversity. ${schedule.load.unstatedPoints} points state no load.`,
              ...examples.map(
                ({ point, amps, leastRatingAmps }) =>
                  `Example, NEC 210.20(A), as a continuous single-phase load: ${point.itemName}, ${figure(amps, 1)} A x 125 % = ${figure(leastRatingAmps, 1)} A at least. An electrician decides.`,
              ),
            ]
          : [],
      ),
      ...section('Drainage', drainageSentences(schedule)),
      ...section('Services gap behind the frames (common practice, no source)', gapSentences(schedule)),
      ...section('Cautions', schedule.cautions),
    ],
  };
};
