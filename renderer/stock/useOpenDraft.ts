import { useCallback, useEffect, useRef, useState } from 'react';
import type { StockCsvColumn } from '../../src/stock/stockCsvColumns.ts';
import { type DraftRow, draftOf, type StockDraft } from '../../src/stock/stockDraft.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { OpenDraft, StockShelf } from './stockShelf.ts';

/** What can be done to a draft. Each act is one step to undo. */
export interface DraftActs {
  readonly cell: (key: string, column: StockCsvColumn, text: string) => void;
  readonly rule: (path: string, text: string) => void;
  readonly head: (field: keyof StockDraft['head'], text: string) => void;
  readonly invented: (invented: boolean) => void;
  readonly addRow: (row: DraftRow['row'], cells: DraftRow['cells'], after?: string) => string;
  readonly removeRow: (key: string) => void;
  /** Takes the pieces of a list in place of the draft's. */
  readonly takePieces: (from: StockRange) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  /** Back to the version that the draft was drawn from. */
  readonly discard: () => void;
}

/** An id like the given one that no row of the draft has. */
export const freeId = (rows: readonly DraftRow[], like: string): string => {
  const taken = new Set(rows.map(({ cells }) => cells.id));
  const stem = like.replace(/-\d+$/, '').slice(0, 58) || 'piece';
  for (let count = rows.length + 1; ; count += 1) {
    const id = `${stem}-${count}`;
    if (!taken.has(id)) return id;
  }
};

const undoMost = 200;

/** The open draft under a key, held by the shelf so that it outlives the screen. */
export const useOpenDraft = (
  shelf: StockShelf,
  key: string,
  base: StockRange,
): { readonly open: OpenDraft; readonly acts: DraftActs } => {
  const [open, set] = useState<OpenDraft>(
    () => shelf.draftFor(key) ?? { base, past: [], draft: draftOf(base), future: [] },
  );
  useEffect(() => {
    shelf.keepDraft(key, open.past.length > 0 || open.future.length > 0 ? open : null);
  }, [shelf, key, open]);
  const change = useCallback(
    (edit: (draft: StockDraft) => StockDraft) =>
      set((before) => {
        const draft = edit(before.draft);
        return draft === before.draft
          ? before
          : { ...before, past: [...before.past, before.draft].slice(-undoMost), draft, future: [] };
      }),
    [],
  );
  const [acts] = useState<Omit<DraftActs, 'addRow'>>(() => ({
    cell: (rowKey, column, text) =>
      change((draft) => {
        const row = draft.rows.find((one) => one.key === rowKey);
        if (!row || (row.cells[column] ?? '') === text) return draft;
        const changed: DraftRow = { ...row, cells: { ...row.cells, [column]: text } };
        return { ...draft, rows: draft.rows.map((one) => (one === row ? changed : one)) };
      }),
    rule: (path, text) =>
      change((draft) =>
        (draft.rules[path] ?? '') === text ? draft : { ...draft, rules: { ...draft.rules, [path]: text } },
      ),
    head: (field, text) =>
      change((draft) =>
        draft.head[field] === text ? draft : { ...draft, head: { ...draft.head, [field]: text } },
      ),
    invented: (invented) => change((draft) => ({ ...draft, invented })),
    removeRow: (rowKey) =>
      change((draft) => ({ ...draft, rows: draft.rows.filter((row) => row.key !== rowKey) })),
    takePieces: (from) => change((draft) => ({ ...draft, rows: draftOf(from).rows })),
    undo: () =>
      set((before) => {
        const last = before.past.at(-1);
        return last
          ? {
              ...before,
              past: before.past.slice(0, -1),
              draft: last,
              future: [before.draft, ...before.future],
            }
          : before;
      }),
    redo: () =>
      set((before) => {
        const [next, ...rest] = before.future;
        return next ? { ...before, past: [...before.past, before.draft], draft: next, future: rest } : before;
      }),
    discard: () => change(() => draftOf(base)),
  }));
  // Read when a row is added, so that the act stays the same and no other row is drawn again for an edit.
  const latestRows = useRef(open.draft.rows);
  latestRows.current = open.draft.rows;
  const addRow = useCallback<DraftActs['addRow']>(
    (row, cells, after) => {
      const id = freeId(latestRows.current, cells.id ?? 'piece');
      const added: DraftRow = { key: `new ${id}`, row, cells: { ...cells, row, id } };
      change((draft) => {
        const at = after === undefined ? -1 : draft.rows.findIndex((one) => one.key === after);
        const rows = at < 0 ? [...draft.rows, added] : draft.rows.toSpliced(at + 1, 0, added);
        return { ...draft, rows };
      });
      return added.key;
    },
    [change],
  );
  return { open, acts: { ...acts, addRow } };
};
