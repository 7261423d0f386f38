import type { z } from 'zod';
import { csvDelimiter, readCsvRows } from './csvRows.ts';
import { neededStockCsvColumns, type StockCsvColumn, stockCsvColumns } from './stockCsvColumns.ts';
import { type RowFault, rowToCornerUnit, rowToItem } from './stockCsvRow.ts';
import { type CornerUnit, type StockItem, type StockRange, stockRangeSchema } from './stockSchema.ts';

/** What is wrong in a stock list, and where. */
export interface StockCsvError {
  /** Line of the text, counted from 1; 1 is the heading. */
  readonly line: number;
  readonly column?: string;
  readonly code: string;
  readonly message: string;
}

export type StockCsvReading =
  | { readonly ok: true; readonly range: StockRange }
  | { readonly ok: false; readonly errors: readonly StockCsvError[] };

const mostCharacters = 5_000_000;
const mostErrors = 200;

const fail = (...errors: readonly StockCsvError[]): StockCsvReading => ({
  ok: false,
  errors: errors.slice(0, mostErrors),
});

/**
 * Reads a stock list from CSV into a new version of a range: its items and corner units are replaced, its rules stay.
 * Takes commas, semicolons or tabs, a decimal point or comma, columns in any order. Every fault of every line is
 * given (at most 200), and nothing is taken over unless all lines are good.
 */
export const readStockCsv = (text: string, base: StockRange): StockCsvReading => {
  if (text.length > mostCharacters)
    return fail({
      line: 1,
      code: 'list-too-long',
      message: `The list has ${text.length} characters; at most ${mostCharacters} are read.`,
    });
  const reading = readCsvRows(text, csvDelimiter(text));
  if (!reading.ok)
    return fail({
      line: reading.line,
      code: 'broken-quoting',
      message: `Line ${reading.line}: ${reading.message}.`,
    });
  const [heading, ...rows] = reading.rows;
  if (heading === undefined || heading.cells.every((cell) => cell.trim() === ''))
    return fail({
      line: 1,
      code: 'empty-list',
      message: 'The list is empty. Its first line must name the columns.',
    });

  const columns = heading.cells.map((cell) => cell.trim());
  const headingFaults = faultsOfHeading(columns, heading.line);
  if (headingFaults.length > 0) return fail(...headingFaults);

  const errors: StockCsvError[] = [];
  const items: { readonly line: number; readonly item: StockItem }[] = [];
  const units: { readonly line: number; readonly unit: CornerUnit }[] = [];
  for (const { line, cells } of rows) {
    if (cells.every((cell) => cell.trim() === '')) continue;
    if (cells.length !== columns.length) {
      errors.push({
        line,
        code: 'wrong-cell-count',
        message: `Line ${line} has ${cells.length} cells; the heading has ${columns.length}.`,
      });
      continue;
    }
    const row = new Map(columns.map((column, index) => [column as StockCsvColumn, cells[index]!.trim()]));
    const kind = row.get('row');
    const located = (faults: readonly RowFault[]): readonly StockCsvError[] =>
      faults.map((fault) => ({ ...fault, line, message: `Line ${line}, ${fault.column}: ${fault.message}` }));
    if (kind === 'item') {
      const result = rowToItem(row);
      if (result.ok) items.push({ line, item: result.value });
      else errors.push(...located(result.faults));
    } else if (kind === 'corner-unit') {
      const result = rowToCornerUnit(row);
      if (result.ok) units.push({ line, unit: result.value });
      else errors.push(...located(result.faults));
    } else
      errors.push(
        ...located([
          { column: 'row', code: 'unknown-row', message: `found "${kind}", expected item or corner-unit.` },
        ]),
      );
  }
  if (errors.length > 0) return fail(...errors);

  const whole = stockRangeSchema.safeParse({
    ...base,
    version: base.version + 1,
    items: items.map(({ item }) => item),
    cornerUnits: units.map(({ unit }) => unit),
  });
  if (whole.success) return { ok: true, range: whole.data };
  const lineOf = (issue: z.core.$ZodIssue): number => {
    const [list, index] = issue.path;
    if (list === 'items') return items[Number(index)]?.line ?? heading.line;
    if (list === 'cornerUnits') return units[Number(index)]?.line ?? heading.line;
    return heading.line;
  };
  return fail(
    ...whole.error.issues.map((issue) => {
      const line = lineOf(issue);
      const column = issue.path.length > 2 ? String(issue.path[2]) : undefined;
      return {
        line,
        ...(column === undefined ? {} : { column }),
        code: 'clashes-in-range',
        message: `Line ${line}: ${issue.message}.`,
      };
    }),
  );
};

const faultsOfHeading = (columns: readonly string[], line: number): readonly StockCsvError[] => {
  const errors: StockCsvError[] = [];
  for (const [index, column] of columns.entries()) {
    if (!(stockCsvColumns as readonly string[]).includes(column))
      errors.push({
        line,
        column,
        code: 'unknown-column',
        message: `There is no column "${column}". Columns are: ${stockCsvColumns.join(', ')}.`,
      });
    else if (columns.indexOf(column) !== index)
      errors.push({ line, column, code: 'repeated-column', message: `Column "${column}" stands twice.` });
  }
  for (const column of neededStockCsvColumns)
    if (!columns.includes(column))
      errors.push({ line, column, code: 'missing-column', message: `Column "${column}" is missing.` });
  return errors;
};
