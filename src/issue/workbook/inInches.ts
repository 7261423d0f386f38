import type { Cell, CellStyle, WorkbookRow, WorkbookSheet } from './workbook.ts';

/** 25.4 mm are an inch, exactly (international yard and pound agreement of 1959, from memory). */
const mmPerInch = 25.4;

const styles: Readonly<Partial<Record<CellStyle, CellStyle>>> = {
  millimetres: 'inches',
  'total-millimetres': 'total-inches',
};

const cellInInches = (cell: Cell): Cell => {
  const style = cell && styles[cell.style];
  if (!cell || !style) return cell;
  // To a hundred-thousandth of an inch: finer than the micrometre that lengths are kept to.
  const inches = (mm: number): number => Math.round((mm / mmPerInch) * 1e5) / 1e5;
  if ('number' in cell) return { number: inches(cell.number), style };
  return 'formula' in cell ? { ...cell, value: inches(cell.value), style } : { ...cell, style };
};

const rowInInches = (row: WorkbookRow): WorkbookRow =>
  row.kind === 'cells' ? { ...row, cells: row.cells.map(cellInInches) } : row;

/**
 * A sheet with its lengths in inches, shown to the sixteenth; sums stay live, because inches add up as millimetres do.
 * The sheet of a quote stays in millimetres: its prices are by the millimetre.
 */
export const inInches = (sheet: WorkbookSheet): WorkbookSheet => ({
  ...sheet,
  columns: sheet.columns.map((column) => ({
    ...column,
    heading: column.heading.replace(/\bmm\b(?=[^(]*\)$)/, 'in'),
  })),
  rows: sheet.rows.map(rowInInches),
});
