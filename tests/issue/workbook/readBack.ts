import ExcelJS from 'exceljs';
import FormulaParser from 'fast-formula-parser';

/** Opens a workbook with a reader that had no part in writing it. */
export const readBack = async (bytes: Uint8Array): Promise<ExcelJS.Workbook> => {
  const workbook = new ExcelJS.Workbook();
  await workbook.xlsx.load(new Uint8Array(bytes).buffer as never);
  return workbook;
};

/** A formula of a workbook: where it stands, the value kept beside it, and what an independent engine makes of it. */
export interface EvaluatedFormula {
  readonly sheet: string;
  readonly address: string;
  readonly kept: number;
  readonly evaluated: number;
}

/**
 * Evaluates every formula with an engine of its own, never from the values kept beside formulas: cells are worked out
 * through to plain numbers. `typed` stands in for what a person types over a cell (`Quote!E6`).
 */
export const evaluateAll = (
  workbook: ExcelJS.Workbook,
  typed: Readonly<Record<string, number>> = {},
): readonly EvaluatedFormula[] => {
  const formulaOf = (cell: ExcelJS.Cell): string | undefined =>
    cell.type === ExcelJS.ValueType.Formula ? cell.formula : undefined;
  const known = new Map<string, unknown>();
  // A parser cannot begin a formula while it is inside another: one for each depth.
  const parsers: FormulaParser[] = [];
  let depth = 0;
  const valueAt = (sheet: string, row: number, col: number): unknown => {
    const cell = workbook.getWorksheet(sheet)!.getCell(row, col);
    const name = `${sheet}!${cell.address}`;
    if (typed[name] !== undefined) return typed[name];
    const formula = formulaOf(cell);
    if (formula === undefined) return cell.value;
    if (!known.has(name)) {
      parsers[depth] ??= new FormulaParser({ onCell, onRange });
      const parser = parsers[depth]!;
      depth += 1;
      known.set(name, parser.parse(formula, { sheet, row, col }));
      depth -= 1;
    }
    return known.get(name);
  };
  const onCell = ({ sheet, row, col }: { sheet: string; row: number; col: number }) =>
    valueAt(sheet, row, col);
  const onRange = ({
    sheet,
    from,
    to,
  }: {
    sheet: string;
    from: { row: number; col: number };
    to: { row: number; col: number };
  }) =>
    Array.from({ length: to.row - from.row + 1 }, (_, down) =>
      Array.from({ length: to.col - from.col + 1 }, (_, along) =>
        valueAt(sheet, from.row + down, from.col + along),
      ),
    );
  const found: EvaluatedFormula[] = [];
  for (const { name } of workbook.worksheets)
    workbook.getWorksheet(name)!.eachRow((row) =>
      row.eachCell((cell) => {
        const formula = formulaOf(cell);
        if (formula === undefined) return;
        const { row: atRow, col: atColumn } = cell.fullAddress;
        const evaluated = valueAt(name, atRow, atColumn);
        if (typeof evaluated !== 'number')
          throw new Error(`${name}!${cell.address} "${formula}" gives ${String(evaluated)}`);
        found.push({ sheet: name, address: cell.address, kept: cell.result as number, evaluated });
      }),
    );
  return found;
};

/** Rows of a sheet's table as text by heading, from the row under the headings down to the first empty one. */
export const tableOf = (sheet: ExcelJS.Worksheet): readonly Readonly<Record<string, unknown>>[] => {
  const view = sheet.views[0];
  const heading = view?.state === 'frozen' ? (view.ySplit ?? 0) : 0;
  const names = (sheet.getRow(heading).values as unknown[]).slice(1).map(String);
  const rows: Record<string, unknown>[] = [];
  for (let at = heading + 1; at <= sheet.rowCount; at += 1) {
    const row = sheet.getRow(at);
    if (!row.hasValues) break;
    rows.push(Object.fromEntries(names.map((name, index) => [name, row.getCell(index + 1).value])));
  }
  return rows;
};
