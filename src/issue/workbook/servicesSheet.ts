import { markOfService } from '../../quote/bayMarks.ts';
import { pieceMarks } from '../../quote/pieceMarks.ts';
import { continuousExamples } from '../../services/connectedLoad.ts';
import { serviceWord, tradeWord } from '../../services/servicePoint.ts';
import { datumOf } from '../../services/servicePoints.ts';
import { NO_SERVICES_NOTE } from '../../services/servicesCautions.ts';
import { servicesSchedule } from '../../services/servicesSchedule.ts';
import {
  drainageSentences,
  gapSentences,
  loadSentences,
  tradeSentences,
  waterSentences,
} from '../../services/servicesWords.ts';
import { cells, gap, millimetres, number, section, text, totalGap } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { columnSum } from './tableTotals.ts';
import { headingRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

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
    const marks = own ? pieceMarks(own.number, own.alternative) : null;
    return points.map((point) => ({
      run,
      point,
      mark: markOfService(point, own?.number ?? 0, marks, own?.zones ?? []),
    }));
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
      ...section('Connected load', loadSentences(schedule, examples)),
      ...section('Water', waterSentences(schedule)),
      ...section('Drainage', drainageSentences(schedule, input.paper === 'letter' ? 'us' : 'metric')),
      ...section(
        'Services gap behind the frames (common practice, no source)',
        gapSentences(schedule, input.paper === 'letter' ? 'ft-in' : 'mm'),
      ),
      ...section('Cautions', schedule.cautions),
    ],
  };
};
