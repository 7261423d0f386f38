import type { StockCsvColumn } from '../../src/stock/stockCsvColumns.ts';
import type { DraftFault, DraftHeadField } from '../../src/stock/stockDraft.ts';

/** The faults of a draft where its cells look for their own. */
export interface FaultsByPlace {
  readonly head: ReadonlyMap<DraftHeadField, string>;
  readonly rules: ReadonlyMap<string, string>;
  readonly rows: ReadonlyMap<string, ReadonlyMap<StockCsvColumn, string>>;
}

const sentence = (message: string): string => message.charAt(0).toUpperCase() + message.slice(1);

/** The first fault of every cell. */
export const faultsByPlace = (faults: readonly DraftFault[]): FaultsByPlace => {
  const head = new Map<DraftHeadField, string>();
  const rules = new Map<string, string>();
  const rows = new Map<string, Map<StockCsvColumn, string>>();
  for (const { place, message } of [...faults].reverse()) {
    const words = sentence(message);
    if (place.in === 'head') head.set(place.field, words);
    else if (place.in === 'rule') rules.set(place.path, words);
    else {
      const row = rows.get(place.key) ?? new Map<StockCsvColumn, string>();
      row.set(place.column, words);
      rows.set(place.key, row);
    }
  }
  return { head, rules, rows };
};
