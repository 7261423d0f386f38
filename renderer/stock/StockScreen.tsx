import './StockScreen.css';
import { useEffect, useState } from 'react';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { PreferenceSwitches } from '../shell/PreferenceSwitches.tsx';
import type { Preferences } from '../shell/usePreferences.ts';
import { RangeEditor } from './RangeEditor.tsx';
import { RangeList } from './RangeList.tsx';
import { newestRanges, rangeWords, type StockShelf, versionKey } from './stockShelf.ts';
import { useStockShelf } from './useStockShelf.ts';

/** An id that no range has, after a name. */
const freeRangeId = (ranges: readonly StockRange[], like: string): string => {
  const stem = like.replace(/-copy(-\d+)?$/, '').slice(0, 52);
  for (let count = 1; ; count += 1) {
    const id = count === 1 ? `${stem}-copy` : `${stem}-copy-${count}`;
    if (!ranges.some((range) => range.id === id)) return id;
  }
};

/** The stock ranges: what can be had, how wide, at what price, and by which rules. Fills the window. */
export const StockScreen = (props: {
  readonly api: ApiClient;
  readonly shelf: StockShelf;
  readonly preferences: Preferences;
  /** The version to show first. */
  readonly first: { readonly id: string; readonly version: number } | null;
  /** Where leaving goes: `Archive`, or the project's name. */
  readonly leaveWords: string;
  readonly onLeave: () => void;
}) => {
  const { shelf } = props;
  const { status, ranges, message, unsaved } = useStockShelf(shelf);
  const [picked, setPicked] = useState<string | null>(props.first && versionKey(props.first));
  const [copies, setCopies] = useState<readonly { readonly key: string; readonly base: StockRange }[]>(() =>
    shelf
      .openDrafts()
      .filter((key) => key.startsWith('copy '))
      .flatMap((key) => {
        const base = shelf.draftFor(key)?.base;
        return base ? [{ key, base }] : [];
      }),
  );
  const copied = copies.find(({ key }) => key === picked);
  const chosen =
    copied?.base ?? ranges.find((range) => versionKey(range) === picked) ?? newestRanges(ranges)[0];
  const chosenKey = copied?.key ?? (chosen ? versionKey(chosen) : null);
  // What was chosen by itself stays chosen when a newer version turns up.
  useEffect(() => {
    if (!picked && chosenKey) setPicked(chosenKey);
  }, [picked, chosenKey]);
  const latest =
    chosen && !copied
      ? Math.max(...ranges.filter(({ id }) => id === chosen.id).map(({ version }) => version))
      : 0;

  const copy = (range: StockRange) => {
    const id = freeRangeId([...ranges, ...copies.map(({ base }) => base)], range.id);
    const name = `Copy of ${range.name}`.slice(0, 120);
    const key = `copy ${id}`;
    setCopies((before) => [
      ...before,
      { key, base: { ...range, id, name, note: `Copied from ${rangeWords(range)}.`, version: 1 } },
    ]);
    setPicked(key);
  };

  return (
    <div className={props.preferences.unit === 'mm' ? 'stock' : 'stock is-ft-in'}>
      <header className="stock-head">
        <button type="button" className="word-button" onClick={props.onLeave}>
          {props.leaveWords}
        </button>
        <h1>Stock ranges</h1>
        <nav className="archive-switches" aria-label="Display">
          <PreferenceSwitches preferences={props.preferences} />
        </nav>
      </header>
      <div className="stock-body">
        <RangeList
          ranges={ranges}
          copies={copies.map(({ key, base }) => ({ key, name: base.name }))}
          chosen={chosenKey}
          unsaved={unsaved}
          onChoose={setPicked}
        />
        <main className="stock-range" key={chosenKey}>
          {status === 'failed' && (
            <p className="alert" role="alert">
              {message}{' '}
              <button type="button" className="word-button" onClick={() => void shelf.read()}>
                Try again
              </button>
            </p>
          )}
          {status === 'reading' && (
            <p className="quiet" role="status">
              Reading the stock ranges …
            </p>
          )}
          {chosen && chosenKey && (
            <>
              <h2>{copied ? chosen.name : rangeWords(chosen)}</h2>
              {!copied && chosen.version < latest && (
                <p className="alert">
                  This is an earlier version; the newest is {latest}. Saving makes version {latest + 1} out of
                  this one.
                </p>
              )}
              <RangeEditor
                key={chosenKey}
                api={props.api}
                shelf={shelf}
                draftKey={chosenKey}
                base={chosen}
                latest={latest}
                unit={props.preferences.unit}
                onSaved={(saved) => {
                  setCopies((before) => before.filter(({ key }) => key !== chosenKey));
                  setPicked(versionKey(saved));
                }}
                onCopy={copy}
              />
            </>
          )}
        </main>
      </div>
    </div>
  );
};
