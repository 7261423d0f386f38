import type { Quote } from '../../quote/quote.ts';
import { type Money, minorDigitsOf } from '../../units/money.ts';
import { cells, formula, millimetres, number, text } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { headingRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

const amountOf = ({ minor, currency }: Money): number => minor / 10 ** minorDigitsOf(currency);

/** Every run's other fits side by side, with what each would do to the quote's total. */
export const optionsSheet = (input: WorkbookInput, quote: Quote, totalCell: string): WorkbookSheet => {
  const { currency, options } = quote;
  const digits = minorDigitsOf(currency);
  const above = sheetHead(
    'Options',
    input,
    'Other fits of each run, one at a time; all other runs as quoted. Differences follow the quote’s total as long as only the fit changes.',
  );
  const first = headingRow({ above }) + 1;
  return {
    name: 'Options',
    above,
    columns: [
      { heading: 'Run', width: 22 },
      { heading: 'Option', width: 12 },
      { heading: 'Why', width: 48 },
      { heading: 'Pieces', width: 9 },
      { heading: 'Made to measure', width: 11 },
      { heading: 'Leftover (mm)', width: 12 },
      { heading: `Goods of this run (${currency})`, width: 16 },
      { heading: `Whole total (${currency})`, width: 16 },
      { heading: `Difference (${currency})`, width: 16 },
      { heading: 'Lines without a price', width: 12 },
    ],
    rows: options.map((option, index) =>
      cells(
        text(option.run),
        text(option.isQuoted ? `${option.letter}, quoted` : option.letter),
        text(option.reason),
        number(option.pieces, 'count'),
        number(option.madeToMeasure, 'count'),
        millimetres(option.leftoverMm),
        number(amountOf(option.goods), 'money'),
        option.isQuoted
          ? formula(`Quote!${totalCell}`, amountOf(option.total), 'money')
          : number(amountOf(option.total), 'money'),
        formula(
          `ROUND(H${first + index}-Quote!${totalCell},${digits})`,
          amountOf(option.difference),
          'money',
        ),
        number(option.withoutPrice, 'count'),
      ),
    ),
  };
};
