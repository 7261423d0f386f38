import type { StockCsvColumn } from './stockCsvColumns.ts';
import type { CornerUnit, PackedSize, StockItem } from './stockSchema.ts';

/** One row of the stock list as text, by column; an absent cell is an empty one. */
export type StockCells = Readonly<Partial<Record<StockCsvColumn, string>>>;

/**
 * A number as a reader cannot mistake it: `12.345` could be twelve thousand where a dot groups, so a third decimal is
 * followed by a nought.
 */
export const figure = (value: number): string => {
  const text = String(value);
  return /^\d{1,3}\.\d{3}$/.test(text) ? `${text}0` : text;
};

const optional = (value: number | undefined): string => (value === undefined ? '' : figure(value));
const yesNo = (value: boolean | undefined): string => (value === undefined ? '' : value ? 'yes' : 'no');
const list = (values: readonly string[] | undefined): string => (values ?? []).join(' | ');

const packedCells = (packed: PackedSize | undefined): StockCells => ({
  packedLengthMm: optional(packed?.lengthMm),
  packedWidthMm: optional(packed?.widthMm),
  packedHeightMm: optional(packed?.heightMm),
  keepUpright: yesNo(packed?.keepUpright),
});

/** An item as the cells of its row. `rowToItem` is the way back. */
export const itemCells = (item: StockItem): StockCells => ({
  row: 'item',
  id: item.id,
  name: item.name,
  kind: item.kind,
  widthMm: figure(item.widthMm),
  depthMm: optional(item.depthMm),
  heightMm: optional(item.heightMm),
  support: item.support,
  fill: yesNo(item.fill),
  hand: item.hand ?? '',
  handOf: item.handOf ?? '',
  price: optional(item.price),
  massKg: optional(item.massKg),
  ...packedCells(item.packed),
  leadTimeDays: optional(item.leadTimeDays),
  frames: optional(item.frames),
  beside: list(item.beside),
  clearOf: list(item.clearOf?.map((rule) => `${rule.item}:${figure(rule.distanceMm)}`)),
  includes: list(item.includes?.map((part) => `${part.count} x ${part.name}`)),
  services: list(
    item.services?.map((service) => {
      const parts = [service.kind, figure(service.offsetMm), figure(service.heightMm), service.connection];
      if (service.count !== undefined || service.loadKw !== undefined) parts.push(optional(service.count));
      if (service.loadKw !== undefined) parts.push(figure(service.loadKw));
      return parts.join(':');
    }),
  ),
  elevation: list(
    item.elevation?.map((shown) => {
      const parts = [shown.feature, figure(shown.fromMm), figure(shown.toMm)];
      if (shown.count !== undefined) parts.push(figure(shown.count));
      return parts.join(':');
    }),
  ),
});

/** A corner unit as the cells of its row. `rowToCornerUnit` is the way back. */
export const cornerUnitCells = (unit: CornerUnit): StockCells => ({
  row: 'corner-unit',
  id: unit.id,
  name: unit.name,
  widthMm: figure(unit.sizeMm),
  price: optional(unit.price),
  massKg: optional(unit.massKg),
  ...packedCells(unit.packed),
  leadTimeDays: optional(unit.leadTimeDays),
  frames: optional(unit.frames),
});
