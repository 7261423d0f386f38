import type { z } from 'zod';
import { readFigure } from './readFigure.ts';
import { cornerUnitColumns, type StockCsvColumn } from './stockCsvColumns.ts';
import { type CornerUnit, cornerUnitSchema, type StockItem, stockItemSchema } from './stockSchema.ts';

/** What is wrong in one cell. */
export interface RowFault {
  readonly column: StockCsvColumn;
  readonly code: string;
  readonly message: string;
}

export type RowResult<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly faults: readonly RowFault[] };

type Row = ReadonlyMap<StockCsvColumn, string>;

/** Reads the cells of one row, gathering what is wrong with them. */
const cellReader = (row: Row) => {
  const faults: RowFault[] = [];
  const text = (column: StockCsvColumn): string | undefined => {
    const cell = row.get(column);
    return cell === undefined || cell === '' ? undefined : cell;
  };
  const parseNumber = (column: StockCsvColumn, cell: string): number | undefined => {
    const reading = readFigure(cell);
    if (reading.ok) return reading.value;
    faults.push({ column, code: reading.code, message: reading.message });
    return undefined;
  };
  const numberIn = (column: StockCsvColumn): number | undefined => {
    const cell = text(column);
    return cell === undefined ? undefined : parseNumber(column, cell);
  };
  const yesNo = (column: StockCsvColumn): boolean | undefined => {
    const cell = text(column)?.toLowerCase();
    if (cell === undefined) return undefined;
    if (cell === 'yes' || cell === 'true') return true;
    if (cell === 'no' || cell === 'false') return false;
    faults.push({ column, code: 'not-yes-or-no', message: `found "${cell}", expected yes or no.` });
    return undefined;
  };
  const parts = (column: StockCsvColumn): readonly string[] | undefined =>
    text(column)
      ?.split('|')
      .map((part) => part.trim());
  /** The parts of a cell's list, each split at colons into so many pieces. */
  const list = (
    column: StockCsvColumn,
    pieces: { readonly least: number; readonly most: number; readonly form: string },
  ): readonly (readonly string[])[] | undefined =>
    parts(column)?.flatMap((part) => {
      const found = part.split(':').map((piece) => piece.trim());
      if (found.length >= pieces.least && found.length <= pieces.most) return [found];
      faults.push({ column, code: 'wrong-form', message: `found "${part}", expected ${pieces.form}.` });
      return [];
    });
  return { faults, text, numberIn, parseNumber, yesNo, parts, list };
};

type CellReader = ReturnType<typeof cellReader>;

/** An object without its undefined entries: a cell left empty is an entry left out. */
const given = (entries: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined));

const packedOf = (cells: CellReader): Record<string, unknown> | undefined => {
  const packed = given({
    lengthMm: cells.numberIn('packedLengthMm'),
    widthMm: cells.numberIn('packedWidthMm'),
    heightMm: cells.numberIn('packedHeightMm'),
    keepUpright: cells.yesNo('keepUpright'),
  });
  return Object.keys(packed).length === 0 ? undefined : packed;
};

const packedColumns: Readonly<Record<string, StockCsvColumn>> = {
  lengthMm: 'packedLengthMm',
  widthMm: 'packedWidthMm',
  heightMm: 'packedHeightMm',
  keepUpright: 'keepUpright',
};

/** The column that a path into an item or a corner unit is typed in. */
export const columnOfPath = (path: readonly PropertyKey[]): StockCsvColumn => {
  const [first, second] = path;
  if (first === 'packed') return packedColumns[String(second)] ?? 'packedLengthMm';
  if (first === 'sizeMm') return 'widthMm';
  return String(first ?? 'row') as StockCsvColumn;
};

const checked = <Value>(schema: z.ZodType<Value>, cells: CellReader, value: unknown): RowResult<Value> => {
  const result = schema.safeParse(value);
  const known = new Set(cells.faults.map((fault) => fault.column));
  const faults = [...cells.faults];
  for (const issue of result.success ? [] : result.error.issues) {
    const column = columnOfPath(issue.path);
    if (known.has(column)) continue;
    const empty = issue.code === 'invalid_type' && cells.text(column) === undefined;
    faults.push(
      empty
        ? { column, code: 'empty-cell', message: 'this cell needs a value.' }
        : { column, code: 'bad-value', message: `${issue.message}.` },
    );
  }
  return result.success && faults.length === 0 ? { ok: true, value: result.data } : { ok: false, faults };
};

/** A row of kind `item` as a stock item. */
export const rowToItem = (row: Row): RowResult<StockItem> => {
  const cells = cellReader(row);
  const counted = (column: StockCsvColumn, piece: string | undefined): number | undefined =>
    piece === undefined || piece === '' ? undefined : cells.parseNumber(column, piece);
  return checked(
    stockItemSchema,
    cells,
    given({
      id: cells.text('id'),
      name: cells.text('name'),
      kind: cells.text('kind'),
      widthMm: cells.numberIn('widthMm'),
      depthMm: cells.numberIn('depthMm'),
      heightMm: cells.numberIn('heightMm'),
      support: cells.text('support'),
      fill: cells.yesNo('fill'),
      hand: cells.text('hand'),
      handOf: cells.text('handOf'),
      price: cells.numberIn('price'),
      massKg: cells.numberIn('massKg'),
      packed: packedOf(cells),
      leadTimeDays: cells.numberIn('leadTimeDays'),
      frames: cells.numberIn('frames'),
      beside: cells.parts('beside'),
      clearOf: cells
        .list('clearOf', { least: 2, most: 2, form: 'id:mm' })
        ?.map(([item, distance]) => ({ item, distanceMm: cells.parseNumber('clearOf', distance!) })),
      includes: cells.parts('includes')?.map((part) => {
        const match = /^(\d+) x (.+)$/.exec(part);
        if (match !== null) return { name: match[2], count: Number(match[1]) };
        cells.faults.push({
          column: 'includes',
          code: 'wrong-form',
          message: `found "${part}", expected 2 x Name.`,
        });
        return {};
      }),
      services: cells
        .list('services', { least: 4, most: 6, form: 'kind:offset:height:connection:count:kW' })
        ?.map(([kind, offset, height, connection, count, loadKw]) =>
          given({
            kind,
            offsetMm: cells.parseNumber('services', offset!),
            heightMm: cells.parseNumber('services', height!),
            connection,
            count: counted('services', count),
            loadKw: counted('services', loadKw),
          }),
        ),
      elevation: cells
        .list('elevation', { least: 3, most: 4, form: 'feature:from:to:count' })
        ?.map(([feature, from, to, count]) =>
          given({
            feature,
            fromMm: cells.parseNumber('elevation', from!),
            toMm: cells.parseNumber('elevation', to!),
            count: counted('elevation', count),
          }),
        ),
    }),
  );
};

/** A row of kind `corner-unit` as a corner unit; its width is its size. */
export const rowToCornerUnit = (row: Row): RowResult<CornerUnit> => {
  const cells = cellReader(row);
  for (const [column, cell] of row)
    if (cell !== '' && !cornerUnitColumns.has(column))
      cells.faults.push({
        column,
        code: 'not-for-corner-units',
        message: 'a corner unit leaves this cell empty.',
      });
  return checked(
    cornerUnitSchema,
    cells,
    given({
      id: cells.text('id'),
      name: cells.text('name'),
      sizeMm: cells.numberIn('widthMm'),
      price: cells.numberIn('price'),
      massKg: cells.numberIn('massKg'),
      packed: packedOf(cells),
      leadTimeDays: cells.numberIn('leadTimeDays'),
      frames: cells.numberIn('frames'),
    }),
  );
};
