import { extrasOfRun } from '../../quote/extras.ts';
import { pieceMarks } from '../../quote/pieceMarks.ts';
import { extraRows } from '../../quote/schedule.ts';
import { cells, gap, millimetres, number, text, totalGap } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { columnSum } from './tableTotals.ts';
import { headingRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/** What goes with the pieces: frames, panels, joints, shelf and brackets, and what stations bring along. */
export const extrasSheet = (input: WorkbookInput): WorkbookSheet => {
  const { range } = input;
  const above = sheetHead(
    'Extras',
    input,
    'Counted by the stock range’s rules. Without a price: it is in the price of the pieces.',
  );
  const rows = input.runs.flatMap((run) =>
    extraRows(run, extrasOfRun(run.problem, run.alternative, range, pieceMarks(run.number, run.alternative))),
  );
  const span = { first: headingRow({ above }) + 1, count: rows.length };
  return {
    name: 'Extras',
    above,
    columns: [
      { heading: 'Mark', width: 9 },
      { heading: 'Run', width: 18 },
      { heading: 'Name', width: 40 },
      { heading: 'Count', width: 8 },
      { heading: 'Length in all (mm)', width: 13 },
      { heading: 'Mass in all (kg)', width: 12 },
      { heading: `Price in all (${range.currency})`, width: 14 },
      { heading: 'Note', width: 44 },
    ],
    rows: [
      ...rows.map((row) =>
        cells(
          text(row.mark),
          text(row.run),
          text(row.name),
          number(row.count, 'count'),
          millimetres(row.widthMm),
          number(row.massKg, 'kilograms'),
          number(row.price, 'money'),
          text(row.note),
        ),
      ),
      gap,
      cells(
        text('Total', 'total-text'),
        ...totalGap(4),
        columnSum(
          5,
          span,
          rows.map(({ massKg }) => massKg),
          'total-kilograms',
          3,
        ),
        columnSum(
          6,
          span,
          rows.map(({ price }) => price),
          'total-money',
          2,
        ),
      ),
    ],
  };
};
