/** How a cell looks; numbers keep their full value whatever is shown. */
export const cellStyles = [
  'text',
  'title',
  'caption',
  'sentence',
  'heading',
  'heading-number',
  'section',
  'hold',
  'count',
  'millimetres',
  'inches',
  'degrees',
  'kilograms',
  'kilowatts',
  'litres-per-second',
  'percent',
  'money',
  'rate',
  'total-text',
  'total-count',
  'total-millimetres',
  'total-inches',
  'total-money',
  'total-kilograms',
  'total-kilowatts',
  'entry',
] as const;
export type CellStyle = (typeof cellStyles)[number];

/** A cell: text, a number, or a live formula (without its equals sign) with the value that it has now. */
export type Cell =
  | { readonly text: string; readonly style: CellStyle }
  | { readonly number: number; readonly style: CellStyle }
  | { readonly formula: string; readonly value: number; readonly style: CellStyle }
  | null;

/** A row: a table's row cell by cell, or one text over the whole width. */
export type WorkbookRow =
  | { readonly kind: 'cells'; readonly cells: readonly Cell[] }
  | { readonly kind: 'across'; readonly text: string; readonly style: CellStyle };

/** A column: its heading, with the unit of its numbers, and its width in characters. */
export interface WorkbookColumn {
  readonly heading: string;
  readonly width: number;
}

/** One sheet: rows above the headings, one row of headings, and rows below. */
export interface WorkbookSheet {
  /** At most 31 characters, none of [ ] : * ? / \ */
  readonly name: string;
  readonly above: readonly WorkbookRow[];
  readonly columns: readonly WorkbookColumn[];
  readonly rows: readonly WorkbookRow[];
}

/** A workbook as data; `writeXlsx` makes its bytes. */
export interface Workbook {
  readonly title: string;
  /** ISO 8601 instant. */
  readonly at: string;
  readonly paper: 'a4' | 'letter';
  /** How many decimals the currency has. */
  readonly moneyDecimals: number;
  readonly sheets: readonly WorkbookSheet[];
}

/** The letters of a column, from 0: A, B, … Z, AA. */
export const columnLetters = (index: number): string =>
  index < 26
    ? String.fromCharCode(65 + index)
    : columnLetters(Math.floor(index / 26) - 1) + columnLetters(index % 26);

/** The number of the row, from 1, at which a sheet's headings stand. */
export const headingRow = ({ above }: Pick<WorkbookSheet, 'above'>): number => above.length + 1;
