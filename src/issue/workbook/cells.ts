import type { Cell, CellStyle, WorkbookRow } from './workbook.ts';

/** A text cell; empty for an empty text. */
export const text = (value: string, style: CellStyle = 'text'): Cell =>
  value === '' ? null : { text: value, style };

/** An empty cell that is drawn: part of a total's line, or a box to write in. */
export const empty = (style: 'total-text' | 'entry'): Cell => ({ text: '', style });

/** Empty cells of a total's line. */
export const totalGap = (count: number): readonly Cell[] =>
  Array.from({ length: count }, () => empty('total-text'));

/** A number cell; empty for null. */
export const number = (value: number | null, style: CellStyle): Cell =>
  value === null ? null : { number: value, style };

/** A length in mm, kept to the micrometre. */
export const millimetres = (value: number | null): Cell =>
  number(value === null ? null : Math.round(value * 1000) / 1000, 'millimetres');

/** A live formula, without its equals sign, and what it comes to. */
export const formula = (source: string, value: number, style: CellStyle): Cell => ({
  formula: source,
  value,
  style,
});

export const cells = (...row: readonly Cell[]): WorkbookRow => ({ kind: 'cells', cells: row });

/** A text over the whole width of the sheet. */
export const across = (value: string, style: CellStyle = 'sentence'): WorkbookRow => ({
  kind: 'across',
  text: value,
  style,
});

/** An empty row. */
export const gap: WorkbookRow = { kind: 'cells', cells: [] };

/** A section under a table: a heading and its sentences; nothing where there are none. */
export const section = (title: string, sentences: readonly string[]): readonly WorkbookRow[] =>
  sentences.length === 0 ? [] : [gap, across(title, 'section'), ...sentences.map((one) => across(one))];
