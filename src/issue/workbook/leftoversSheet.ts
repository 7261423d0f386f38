import { pieceMarks } from '../../quote/pieceMarks.ts';
import { verdictWord } from '../../quote/schedule.ts';
import { cells, gap, millimetres, section, text, totalGap } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { columnSum } from './tableTotals.ts';
import { headingRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/** What no stock piece covers, with its verdict and whether the drawing is sure enough for it. */
export const leftoversSheet = (input: WorkbookInput): WorkbookSheet => {
  const above = sheetHead(
    'Leftovers',
    input,
    'Confirmed: layout and verdict hold over the straight’s length plus and minus its uncertainty (k = 2).',
  );
  const rows = input.runs.flatMap((run) => {
    const marks = pieceMarks(run.number, run.alternative);
    return run.alternative.leftovers.map((leftover, index) => ({
      run,
      leftover,
      mark: marks.leftovers[index] ?? '',
      plusMinusMm: run.problem.straights[leftover.straight]?.uncertaintyMm ?? 0,
    }));
  });
  const span = { first: headingRow({ above }) + 1, count: rows.length };
  return {
    name: 'Leftovers',
    above,
    columns: [
      { heading: 'Mark', width: 10 },
      { heading: 'Run', width: 22 },
      { heading: 'Straight', width: 9 },
      { heading: 'From (mm)', width: 12 },
      { heading: 'To (mm)', width: 12 },
      { heading: 'Width (mm)', width: 12 },
      { heading: 'Straight’s +/- (mm)', width: 13 },
      { heading: 'Verdict', width: 18 },
      { heading: 'Confirmed', width: 26 },
    ],
    rows: [
      ...rows.map(({ run, leftover, mark, plusMinusMm }) =>
        cells(
          text(mark),
          text(run.name),
          { number: leftover.straight + 1, style: 'count' },
          millimetres(leftover.fromMm),
          millimetres(leftover.toMm),
          millimetres(leftover.widthMm),
          millimetres(plusMinusMm),
          text(verdictWord(leftover.verdict)),
          text(leftover.confirmed ? 'yes' : 'no: measure on site first'),
        ),
      ),
      gap,
      cells(
        text('Total', 'total-text'),
        ...totalGap(4),
        columnSum(
          5,
          span,
          rows.map(({ leftover }) => leftover.widthMm),
          'total-millimetres',
          3,
        ),
      ),
      ...section(
        'Open questions',
        input.runs.flatMap(({ name, questions }) => questions.map((question) => `${name}: ${question}`)),
      ),
    ],
  };
};
