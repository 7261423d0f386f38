import { cornerUnitCells, itemCells, type StockCells } from './stockCells.ts';
import { type StockCsvColumn, stockCsvColumns } from './stockCsvColumns.ts';
import { ruleText, stockRules } from './stockRules.ts';
import type { StockRange } from './stockSchema.ts';

/** One piece that two ranges hold differently: by its id, with the cells that differ. */
export interface ChangedPiece {
  readonly id: string;
  readonly name: string;
  readonly changes: readonly {
    readonly column: StockCsvColumn;
    readonly before: string;
    readonly after: string;
  }[];
}

/** What one range has that another has not. */
export interface StockDifference {
  readonly added: readonly { readonly id: string; readonly name: string }[];
  readonly removed: readonly { readonly id: string; readonly name: string }[];
  readonly changed: readonly ChangedPiece[];
  readonly rules: readonly {
    readonly path: string;
    readonly words: string;
    readonly before: string;
    readonly after: string;
  }[];
  /** Name, currency, note, or whether it is invented. */
  readonly head: readonly string[];
}

const rowsOf = (
  range: StockRange,
): ReadonlyMap<string, { readonly name: string; readonly cells: StockCells }> =>
  new Map([
    ...range.items.map((item) => [item.id, { name: item.name, cells: itemCells(item) }] as const),
    ...range.cornerUnits.map((unit) => [unit.id, { name: unit.name, cells: cornerUnitCells(unit) }] as const),
  ]);

/** What changes from one range to another, piece by piece and rule by rule. Their versions are not compared. */
export const stockDifference = (before: StockRange, after: StockRange): StockDifference => {
  const old = rowsOf(before);
  const now = rowsOf(after);
  const named = (
    rows: ReturnType<typeof rowsOf>,
    absentIn: ReturnType<typeof rowsOf>,
  ): StockDifference['added'] =>
    [...rows].filter(([id]) => !absentIn.has(id)).map(([id, { name }]) => ({ id, name }));
  const changed = [...now].flatMap(([id, { name, cells }]): ChangedPiece[] => {
    const earlier = old.get(id);
    if (!earlier) return [];
    const changes = stockCsvColumns.flatMap((column) => {
      const one = earlier.cells[column] ?? '';
      const other = cells[column] ?? '';
      return one === other ? [] : [{ column, before: one, after: other }];
    });
    return changes.length > 0 ? [{ id, name, changes }] : [];
  });
  const rules = stockRules.flatMap((rule) => {
    const one = ruleText(before, rule);
    const other = ruleText(after, rule);
    return one === other ? [] : [{ path: rule.path, words: rule.words, before: one, after: other }];
  });
  const head = (['name', 'currency', 'note', 'invented'] as const).filter(
    (field) => before[field] !== after[field],
  );
  return { added: named(now, old), removed: named(old, now), changed, rules, head };
};

/** Whether two ranges hold the same. */
export const isSameStock = (difference: StockDifference): boolean =>
  Object.values(difference).every((list: readonly unknown[]) => list.length === 0);

const counted = (count: number, one: string, many: string): string[] =>
  count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];

/** A difference in one line: `2 pieces new, 1 gone, 3 changed, 1 rule changed`; empty where there is none. */
export const differenceWords = ({ added, removed, changed, rules, head }: StockDifference): string =>
  [
    ...counted(added.length, 'piece new', 'pieces new'),
    ...counted(removed.length, 'piece gone', 'pieces gone'),
    ...counted(changed.length, 'piece changed', 'pieces changed'),
    ...counted(rules.length, 'rule changed', 'rules changed'),
    ...head.map((field) => (field === 'invented' ? '“invented” changed' : `${field} changed`)),
  ].join(', ');
