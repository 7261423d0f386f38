import type { Quote } from '../../quote/quote.ts';
import type { QuoteLine } from '../../quote/quoteLine.ts';
import { type Money, minorDigitsOf } from '../../units/money.ts';
import { across, cells, formula, gap, millimetres, number, section, text, totalGap } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import { type Cell, headingRow, type WorkbookRow, type WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/** The columns that the formulas name. */
const quantityColumn = 'E';
const baseColumn = 'F';
const lengthColumn = 'G';
const rateColumn = 'H';
const unitColumn = 'I';
const amountColumn = 'J';

/**
 * Formulas count in whole units of ten to the power of so many, so that a spreadsheet's floats stay whole numbers until
 * the one division, and every half is rounded as the quote rounds it.
 */
const baseDecimals = 4;
const rateDecimals = 6;
const micrometreDecimals = 3;

/** Amounts in whole currency units, as a spreadsheet shows them; the nearest float to the exact decimal. */
const amountOf = ({ minor, currency }: Money): number => Number(decimalText(minor, minorDigitsOf(currency)));

const decimalText = (minor: number, digits: number): string => {
  const size = String(Math.abs(minor)).padStart(digits + 1, '0');
  const at = size.length - digits;
  return `${minor < 0 ? '-' : ''}${size.slice(0, at)}.${size.slice(at) || '0'}`;
};

const unitFormula = (row: number, digits: number): string => {
  const whole = rateDecimals + micrometreDecimals;
  const base = `ROUND(${baseColumn}${row}*10^${baseDecimals},0)*10^${whole - baseDecimals}`;
  const byLength = `ROUND(${rateColumn}${row}*10^${rateDecimals},0)*ROUND(${lengthColumn}${row}*10^${micrometreDecimals},0)`;
  return `ROUND((${base}+${byLength})/10^${whole - digits},0)/10^${digits}`;
};

/** A share in percent of an amount, rounded once: whole minor units times whole basis points. */
const shareFormula = (amount: string, percent: string, digits: number): string =>
  `ROUND(ROUND(${amount}*10^${digits},0)*ROUND(${percent}*100,0)/10000,0)/10^${digits}`;

const lineRow = (line: QuoteLine, row: number, digits: number): WorkbookRow => {
  const { price, unitPrice, amount } = line;
  const head: readonly Cell[] = [
    text(line.run),
    text(line.marks.join(', ')),
    text(line.item),
    text(line.name),
    number(line.quantity, 'count'),
  ];
  if (!price || !unitPrice || !amount)
    return cells(...head, null, null, null, null, text('NO PRICE', 'hold'), text(line.note));
  const isByLength = price.ratePerMm > 0;
  return cells(
    ...head,
    number(price.base, 'money'),
    millimetres(isByLength ? price.lengthMm : null),
    number(isByLength ? price.ratePerMm : null, 'rate'),
    formula(unitFormula(row, digits), amountOf(unitPrice), 'money'),
    formula(`ROUND(${quantityColumn}${row}*${unitColumn}${row},${digits})`, amountOf(amount), 'money'),
    text(line.note),
  );
};

/** Where the quote's total stands, for other sheets. */
export interface QuoteSheet {
  readonly sheet: WorkbookSheet;
  readonly totalCell: string;
}

/** The quote with live formulas: what is typed over in quantities, prices, rates and percentages works through to the total. */
export const quoteSheet = (input: WorkbookInput, quote: Quote): QuoteSheet => {
  const { settings, totals, currency, lines } = quote;
  const digits = minorDigitsOf(currency);
  const numbered = settings.number === '' ? 'Quote' : `Quote ${settings.number}`;
  const above = [
    ...sheetHead('Quote', input, quote.rounding),
    across(
      `${numbered} of ${settings.date}, valid until ${quote.validUntil}. Amounts in ${currency}.`,
      'section',
    ),
    ...(quote.withoutPrice.length === 0
      ? []
      : [
          across(
            `NOT COMPLETE: ${quote.withoutPrice.length} ${quote.withoutPrice.length === 1 ? 'line has' : 'lines have'} no price and ${quote.withoutPrice.length === 1 ? 'is' : 'are'} in no sum: ${quote.withoutPrice.map(({ marks, name }) => [marks.join(', '), name].filter(Boolean).join(' ')).join('; ')}.`,
            'section',
          ),
        ]),
  ];
  const first = headingRow({ above }) + 1;
  const last = first + lines.length - 1;
  const goodsRow = last + 2;
  const at = {
    goods: `${amountColumn}${goodsRow}`,
    discount: `${amountColumn}${goodsRow + 1}`,
    freight: `${amountColumn}${goodsRow + 2}`,
    installation: `${amountColumn}${goodsRow + 3}`,
    net: `${amountColumn}${goodsRow + 4}`,
    tax: `${amountColumn}${goodsRow + 5}`,
    total: `${amountColumn}${goodsRow + 6}`,
    discountPercent: `${unitColumn}${goodsRow + 1}`,
    taxPercent: `${unitColumn}${goodsRow + 5}`,
  };
  const sumRow = (word: string, percent: Cell, amount: Cell, isTotal = false): WorkbookRow =>
    isTotal
      ? cells(...totalGap(3), text(word, 'total-text'), ...totalGap(5), amount)
      : cells(null, null, null, text(word), null, null, null, null, percent, amount);
  const given = (amount: Money | null): Cell =>
    amount ? { number: amountOf(amount), style: 'money' } : text('not included');
  const goods: Cell =
    lines.length === 0
      ? { number: 0, style: 'total-money' }
      : formula(
          `ROUND(SUM(${amountColumn}${first}:${amountColumn}${last}),${digits})`,
          amountOf(totals.goods),
          'total-money',
        );
  const negative = amountOf(totals.discount);
  return {
    totalCell: at.total,
    sheet: {
      name: 'Quote',
      above,
      columns: [
        { heading: 'Run', width: 18 },
        { heading: 'Marks', width: 22 },
        { heading: 'Item', width: 25 },
        { heading: 'Name', width: 40 },
        { heading: 'Quantity', width: 9 },
        { heading: `Base price (${currency})`, width: 12 },
        { heading: 'Charged length (mm)', width: 11 },
        { heading: `Price per length (${currency}/mm)`, width: 12 },
        { heading: `Unit price (${currency}); below: %`, width: 13 },
        { heading: `Amount (${currency})`, width: 14 },
        { heading: 'Note', width: 30 },
      ],
      rows: [
        ...lines.map((line, index) => lineRow(line, first + index, digits)),
        gap,
        sumRow('Goods and extras', null, goods, true),
        sumRow(
          'Discount on goods and extras (%)',
          { number: settings.discountBasisPoints / 100, style: 'percent' },
          formula(
            `-${shareFormula(at.goods, at.discountPercent, digits)}`,
            negative === 0 ? 0 : -negative,
            'money',
          ),
        ),
        sumRow('Freight', null, given(totals.freight)),
        sumRow('Installation', null, given(totals.installation)),
        sumRow(
          'Net',
          null,
          formula(
            `ROUND(SUM(${at.goods}:${at.installation}),${digits})`,
            amountOf(totals.net),
            'total-money',
          ),
          true,
        ),
        settings.tax && totals.tax
          ? sumRow(
              `${settings.tax.name} (%)`,
              { number: settings.tax.basisPoints / 100, style: 'percent' },
              formula(shareFormula(at.net, at.taxPercent, digits), amountOf(totals.tax), 'money'),
            )
          : sumRow('Tax', null, text('not included')),
        sumRow(
          quote.withoutPrice.length === 0
            ? 'Total'
            : `Total without ${quote.withoutPrice.length === 1 ? 'the line that has' : `the ${quote.withoutPrice.length} lines that have`} no price`,
          null,
          formula(`ROUND(SUM(${at.net}:${at.tax}),${digits})`, amountOf(totals.total), 'total-money'),
          true,
        ),
        ...section('Assumptions', quote.assumptions),
        ...section('Not included', quote.exclusions),
        ...section('Open questions', quote.questions),
        ...section('Offers', quote.offers),
      ],
    },
  };
};
