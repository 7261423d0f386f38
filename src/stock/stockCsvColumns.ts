/** The columns of the stock list as CSV, in the order that they are written. */
export const stockCsvColumns = [
  'row',
  'id',
  'name',
  'kind',
  'widthMm',
  'depthMm',
  'heightMm',
  'support',
  'fill',
  'hand',
  'handOf',
  'price',
  'massKg',
  'packedLengthMm',
  'packedWidthMm',
  'packedHeightMm',
  'keepUpright',
  'leadTimeDays',
  'frames',
  'beside',
  'clearOf',
  'includes',
  'services',
  'elevation',
] as const;

export type StockCsvColumn = (typeof stockCsvColumns)[number];

/** Columns that every list must have; the others may be left out. */
export const neededStockCsvColumns: readonly StockCsvColumn[] = ['row', 'id', 'name', 'widthMm'];

/** Columns that a corner unit's row may fill; its width is the size that it takes off both straights. */
export const cornerUnitColumns: ReadonlySet<StockCsvColumn> = new Set([
  'row',
  'id',
  'name',
  'widthMm',
  'price',
  'massKg',
  'packedLengthMm',
  'packedWidthMm',
  'packedHeightMm',
  'keepUpright',
  'leadTimeDays',
  'frames',
]);
