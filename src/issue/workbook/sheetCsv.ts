import { writeCsvRows } from '../../stock/csvRows.ts';
import type { Cell, WorkbookSheet } from './workbook.ts';

/** A spreadsheet runs a cell that starts with one of these as a formula; a quote mark before it keeps it text. */
const formulaStart = /^[=+\-@\t\r]/;

const plain = (cell: Cell): string => {
  if (cell === null) return '';
  if ('text' in cell) return formulaStart.test(cell.text) ? `'${cell.text}` : cell.text;
  return String('formula' in cell ? cell.value : cell.number);
};

/**
 * A sheet's table as CSV (RFC 4180) with a byte order mark: headings with their units, then every row of cells, formulas
 * as the values that they have. Titles and sentences over the whole width are left to the workbook.
 */
export const sheetCsv = ({ columns, rows }: WorkbookSheet): string => {
  const table = rows.flatMap((row) =>
    row.kind === 'cells' && row.cells.length > 0
      ? [columns.map((_, index) => plain(row.cells[index] ?? null))]
      : [],
  );
  return `\uFEFF${writeCsvRows([columns.map(({ heading }) => heading), ...table])}`;
};
