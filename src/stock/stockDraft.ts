import { readFigure } from './readFigure.ts';
import { cornerUnitCells, itemCells, type StockCells } from './stockCells.ts';
import type { StockCsvColumn } from './stockCsvColumns.ts';
import { columnOfPath, type RowResult, rowToCornerUnit, rowToItem } from './stockCsvRow.ts';
import { ruleText, type StockRule, stockRules } from './stockRules.ts';
import { type CornerUnit, type StockItem, type StockRange, stockRangeSchema } from './stockSchema.ts';

/** One piece of a range being edited: every cell as it is typed, good or not. */
export interface DraftRow {
  /** Names the row while it is edited; its id may be empty or taken meanwhile. */
  readonly key: string;
  readonly row: 'item' | 'corner-unit';
  readonly cells: StockCells;
}

export const draftHeadFields = ['id', 'name', 'currency', 'note'] as const;
export type DraftHeadField = (typeof draftHeadFields)[number];

/** A stock range being edited, as text: what does not read yet is kept, so that nothing typed is ever lost. */
export interface StockDraft {
  readonly head: Readonly<Record<DraftHeadField, string>>;
  readonly invented: boolean;
  readonly rows: readonly DraftRow[];
  /** By the rule's path. */
  readonly rules: Readonly<Record<string, string>>;
}

export type DraftPlace =
  | { readonly in: 'head'; readonly field: DraftHeadField }
  | { readonly in: 'row'; readonly key: string; readonly column: StockCsvColumn }
  | { readonly in: 'rule'; readonly path: string };

/** What is wrong in a draft, and in which of its cells. */
export interface DraftFault {
  readonly place: DraftPlace;
  readonly code: string;
  readonly message: string;
}

export type DraftReading =
  | { readonly ok: true; readonly range: StockRange }
  | { readonly ok: false; readonly faults: readonly DraftFault[] };

/** A stored range as a draft to edit. */
export const draftOf = (range: StockRange): StockDraft => ({
  head: { id: range.id, name: range.name, currency: range.currency, note: range.note },
  invented: range.invented,
  rows: [
    ...range.items.map((item): DraftRow => ({ key: `item ${item.id}`, row: 'item', cells: itemCells(item) })),
    ...range.cornerUnits.map(
      (unit): DraftRow => ({
        key: `corner-unit ${unit.id}`,
        row: 'corner-unit',
        cells: cornerUnitCells(unit),
      }),
    ),
  ],
  rules: Object.fromEntries(stockRules.map((rule) => [rule.path, ruleText(range, rule)])),
});

type RuleReading =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly code: string; readonly message: string };

const readFrames = (text: string): RuleReading => {
  const lines: { readonly upToMm: number; readonly frames: number }[] = [];
  for (const part of text.split('|').map((one) => one.trim())) {
    const [width, frames, ...more] = part.split(':').map((one) => one.trim());
    if (!width || !frames || more.length > 0)
      return { ok: false, code: 'wrong-form', message: `found "${part}", expected a width and its frames.` };
    const upTo = readFigure(width);
    if (!upTo.ok) return upTo;
    const count = readFigure(frames);
    if (!count.ok) return count;
    lines.push({ upToMm: upTo.value, frames: count.value });
  }
  return { ok: true, value: lines };
};

const readRule = (rule: StockRule, text: string): RuleReading => {
  if (text === '')
    return rule.isOptional
      ? { ok: true, value: undefined }
      : { ok: false, code: 'empty-cell', message: 'this rule needs a value.' };
  return rule.kind === 'frames-by-width' ? readFrames(text) : readFigure(text);
};

/** Puts a value at a dotted path into a tree of plain objects. */
const putAt = (tree: Record<string, unknown>, path: string, value: unknown): void => {
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  let node = tree;
  for (const key of keys) {
    node[key] ??= {};
    node = node[key] as Record<string, unknown>;
  }
  if (value !== undefined) node[last] = value;
};

const rowFaults = (row: DraftRow, result: RowResult<unknown>): readonly DraftFault[] =>
  result.ok
    ? []
    : result.faults.map(({ column, code, message }) => ({
        place: { in: 'row', key: row.key, column },
        code,
        message,
      }));

/** Every row kind's own cells, so that the other kind's leftovers from before a change of kind are not read. */
const rowMap = (row: DraftRow): ReadonlyMap<StockCsvColumn, string> =>
  new Map(Object.entries(row.cells).map(([column, text]) => [column as StockCsvColumn, (text ?? '').trim()]));

/**
 * Reads a draft as a range of the given version, or gives every fault with the cell that it is in. A row's faults are
 * those of the same row in a CSV list.
 */
export const readDraft = (draft: StockDraft, version: number): DraftReading => {
  const faults: DraftFault[] = [];
  const items: { readonly row: DraftRow; readonly value: StockItem }[] = [];
  const units: { readonly row: DraftRow; readonly value: CornerUnit }[] = [];
  for (const row of draft.rows) {
    if (row.row === 'item') {
      const result = rowToItem(rowMap(row));
      if (result.ok) items.push({ row, value: result.value });
      faults.push(...rowFaults(row, result));
    } else {
      const result = rowToCornerUnit(rowMap(row));
      if (result.ok) units.push({ row, value: result.value });
      faults.push(...rowFaults(row, result));
    }
  }
  const tree: Record<string, unknown> = {};
  for (const rule of stockRules) {
    const reading = readRule(rule, (draft.rules[rule.path] ?? '').trim());
    if (reading.ok) putAt(tree, rule.path, reading.value);
    else
      faults.push({ place: { in: 'rule', path: rule.path }, code: reading.code, message: reading.message });
  }
  if (faults.length > 0) return { ok: false, faults };

  const { id, name, currency, note } = draft.head;
  const whole = stockRangeSchema.safeParse({
    ...tree,
    id: id.trim(),
    name: name.trim(),
    currency: currency.trim(),
    note: note.trim(),
    version,
    invented: draft.invented,
    items: items.map(({ value }) => value),
    cornerUnits: units.map(({ value }) => value),
  });
  if (whole.success) return { ok: true, range: whole.data };
  return {
    ok: false,
    faults: whole.error.issues.map(({ path, message }): DraftFault => {
      const fault = (place: DraftPlace) => ({ place, code: 'bad-value', message: `${message}.` });
      const [list, index, ...rest] = path;
      const row = (list === 'items' ? items : list === 'cornerUnits' ? units : [])[Number(index)]?.row;
      if (row)
        return fault({ in: 'row', key: row.key, column: columnOfPath(rest.length > 0 ? rest : ['id']) });
      const field = draftHeadFields.find((one) => one === list);
      if (field) return fault({ in: 'head', field });
      const joined = path.map(String).join('.');
      const broken = stockRules.find((rule) => joined === rule.path || joined.startsWith(`${rule.path}.`));
      return fault(broken ? { in: 'rule', path: broken.path } : { in: 'head', field: 'name' });
    }),
  };
};
