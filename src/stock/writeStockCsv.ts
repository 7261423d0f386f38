import { writeCsvRows } from './csvRows.ts';
import { cornerUnitCells, itemCells } from './stockCells.ts';
import { stockCsvColumns } from './stockCsvColumns.ts';
import type { StockRange } from './stockSchema.ts';

/**
 * The items and corner units of a stock range as CSV: commas, CRLF, decimal points. Lists within a cell are parted by
 * bars: services as `kind:offset:height:connection:count:kW`, elevation as `feature:from:to:count`, parts as
 * `2 x Name`, clearances as `id:mm`. The range's rules (heights, fillers, allowances) are not in it.
 */
export const writeStockCsv = (range: StockRange): string =>
  writeCsvRows([
    stockCsvColumns,
    ...[...range.items.map(itemCells), ...range.cornerUnits.map(cornerUnitCells)].map((cells) =>
      stockCsvColumns.map((column) => cells[column] ?? ''),
    ),
  ]);
