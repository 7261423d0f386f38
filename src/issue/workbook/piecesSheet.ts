import { type ScheduleRow, scheduleOfRun } from '../../quote/schedule.ts';
import { zoneRows } from '../../quote/zoneRows.ts';
import { cells, gap, millimetres, number, text, totalGap } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { columnSum } from './tableTotals.ts';
import { headingRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

const kinds: Partial<Record<ScheduleRow['kind'], string>> = {
  module: 'Module',
  station: 'Station',
  'corner-unit': 'Corner unit',
  'corner-wedge': 'Corner wedge, made to measure',
  'by-others': 'By others',
  'low-section': 'Low section, made to measure',
};

/** The schedule of pieces: every stock piece and corner in the order of the front line, then what stands in
 * bays and low sections. */
export const piecesSheet = (input: WorkbookInput): WorkbookSheet => {
  const above = sheetHead(
    'Pieces',
    input,
    'Positions run along the front line from the start of each straight. Lengths are from the drawing: check on site before ordering.',
  );
  const rows = input.runs
    .flatMap((run) => [
      ...scheduleOfRun(run, run.alternative, input.range),
      ...zoneRows(run, run.zones ?? [], input.range),
    ])
    .filter(({ kind }) => kinds[kind] !== undefined);
  const first = headingRow({ above }) + 1;
  const span = { first, count: rows.length };
  const { currency } = input.range;
  return {
    name: 'Pieces',
    above,
    columns: [
      { heading: 'Mark', width: 9 },
      { heading: 'Run', width: 18 },
      { heading: 'Straight', width: 9 },
      { heading: 'Kind', width: 14 },
      { heading: 'Item', width: 25 },
      { heading: 'Name', width: 40 },
      { heading: 'From (mm)', width: 11 },
      { heading: 'To (mm)', width: 11 },
      { heading: 'Width (mm)', width: 11 },
      { heading: 'Mass (kg)', width: 10 },
      { heading: `Price (${currency})`, width: 13 },
      { heading: 'Note', width: 34 },
    ],
    rows: [
      ...rows.map((row) =>
        cells(
          text(row.mark),
          text(row.run),
          number(row.straight, 'count'),
          text(kinds[row.kind] ?? ''),
          text(row.item),
          text(row.name),
          millimetres(row.fromMm),
          millimetres(row.toMm),
          millimetres(row.widthMm),
          number(row.massKg, 'kilograms'),
          number(row.price, 'money'),
          text(row.note),
        ),
      ),
      gap,
      cells(
        text('Total', 'total-text'),
        text(`${rows.filter(({ kind }) => kind !== 'by-others').length} pieces`, 'total-text'),
        ...totalGap(7),
        columnSum(
          9,
          span,
          rows.map(({ massKg }) => massKg),
          'total-kilograms',
          3,
        ),
        columnSum(
          10,
          span,
          rows.map(({ price }) => price),
          'total-money',
          2,
        ),
      ),
    ],
  };
};
