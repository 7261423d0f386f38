import { draftOf, type StockDraft } from '../../src/stock/stockDraft.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

/** What the window knows of the archive's stock ranges. */
export interface StockShelfState {
  readonly status: 'reading' | 'ready' | 'failed';
  /** Every version of every range, by id and then version. */
  readonly ranges: readonly StockRange[];
  readonly message: string | null;
  /** Keys of the drafts that hold changes. */
  readonly unsaved: readonly string[];
}

/** A draft with its undo steps, and the version that it is drawn from. */
export interface OpenDraft {
  readonly base: StockRange;
  readonly past: readonly StockDraft[];
  readonly draft: StockDraft;
  readonly future: readonly StockDraft[];
}

/**
 * The stock ranges of the archive, read once and kept for every screen of the window, and the drafts that are open: a
 * draft stays while the window is open, wherever one goes meanwhile.
 */
export interface StockShelf {
  readonly state: () => StockShelfState;
  readonly subscribe: (listener: () => void) => () => void;
  readonly read: () => Promise<void>;
  /** Saves a range as the version after `after`; throws CallRefused. */
  readonly save: (range: StockRange, after: number) => Promise<StockRange>;
  readonly draftFor: (key: string) => OpenDraft | undefined;
  readonly keepDraft: (key: string, draft: OpenDraft | null) => void;
  /** Keys of the drafts that are open. */
  readonly openDrafts: () => readonly string[];
}

/** Names a version of a range, among drafts and in lists. */
export const versionKey = ({ id, version }: { readonly id: string; readonly version: number }): string =>
  `${id} ${version}`;

const hasChanges = ({ base, draft }: OpenDraft): boolean =>
  JSON.stringify(draft) !== JSON.stringify(draftOf(base));

export const createStockShelf = (api: ApiClient): StockShelf => {
  let state: StockShelfState = { status: 'reading', ranges: [], message: null, unsaved: [] };
  const listeners = new Set<() => void>();
  const drafts = new Map<string, OpenDraft>();
  const set = (next: StockShelfState) => {
    state = next;
    for (const listener of listeners) listener();
  };
  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async read() {
      try {
        const { ranges } = await api.call('list-stock-ranges', {});
        set({ ...state, status: 'ready', ranges, message: null });
      } catch (thrown) {
        set({ ...state, status: 'failed', message: wordsFor(thrown) });
      }
    },
    async save(range, after) {
      const { range: saved } = await api.call('save-stock-range', { range, after });
      const others = state.ranges.filter((one) => versionKey(one) !== versionKey(saved));
      const ranges = [...others, saved].sort(
        (one, other) => (one.id < other.id ? -1 : one.id > other.id ? 1 : 0) || one.version - other.version,
      );
      set({ ...state, status: 'ready', ranges, message: null });
      return saved;
    },
    draftFor: (key) => drafts.get(key),
    keepDraft(key, draft) {
      if (draft) drafts.set(key, draft);
      else drafts.delete(key);
      const unsaved = [...drafts].filter(([, one]) => hasChanges(one)).map(([one]) => one);
      if (unsaved.join('\n') !== state.unsaved.join('\n')) set({ ...state, unsaved });
    },
    openDrafts: () => [...drafts.keys()],
  };
};

/** The newest version of each range, in the order of their names. */
export const newestRanges = (ranges: readonly StockRange[]): readonly StockRange[] => {
  const newest = new Map<string, StockRange>();
  for (const range of ranges)
    if (range.version >= (newest.get(range.id)?.version ?? 0)) newest.set(range.id, range);
  return [...newest.values()].sort((one, other) => one.name.localeCompare(other.name));
};

/** Whether an invented range needs the word beside its name, because the name does not say so itself. */
export const needsInventedWord = ({ name, invented }: Pick<StockRange, 'name' | 'invented'>): boolean =>
  invented && !/invented/i.test(name);

/** A range's name, which says where nobody sells it. */
export const rangeName = (range: Pick<StockRange, 'name' | 'invented'>): string =>
  needsInventedWord(range) ? `${range.name} (invented)` : range.name;

/** `Demo range (invented), version 1`: a range that nobody sells says so wherever it is named. */
export const rangeWords = (range: Pick<StockRange, 'name' | 'version' | 'invented'>): string =>
  `${rangeName(range)}, version ${range.version}`;
