import { formula } from './cells.ts';
import { type Cell, type CellStyle, columnLetters } from './workbook.ts';

/** A live sum of one column of a table, from its first row to its last; a plain zero where there is no row. */
export const columnSum = (
  column: number,
  rows: { readonly first: number; readonly count: number },
  values: readonly (number | null)[],
  style: CellStyle,
  decimals: number,
): Cell => {
  if (rows.count === 0) return { number: 0, style };
  const letters = columnLetters(column);
  const factor = 10 ** decimals;
  const sum = values.reduce<number>((total, value) => total + Math.round((value ?? 0) * factor), 0) / factor;
  const last = rows.first + rows.count - 1;
  return formula(`ROUND(SUM(${letters}${rows.first}:${letters}${last}),${decimals})`, sum, style);
};
