import type { StockRange } from '../../src/stock/stockSchema.ts';
import { needsInventedWord, newestRanges, versionKey } from './stockShelf.ts';

/** The ranges of the archive, each with its versions, the newest first. */
export const RangeList = (props: {
  readonly ranges: readonly StockRange[];
  /** Copies that are not saved yet. */
  readonly copies: readonly { readonly key: string; readonly name: string }[];
  readonly chosen: string | null;
  /** Keys of versions that are being changed. */
  readonly unsaved: readonly string[];
  readonly onChoose: (key: string) => void;
}) => {
  const button = (key: string, rangeName: string, words: string) => {
    const state = props.unsaved.includes(key) ? ' · not saved' : '';
    return (
      <button
        type="button"
        className="pick-version"
        aria-current={props.chosen === key ? 'true' : undefined}
        // What is seen is part of what is said (WCAG 2.2, 2.5.3).
        aria-label={`${rangeName}, ${words[0]?.toLowerCase() ?? ''}${words.slice(1)}${state}`}
        onClick={() => props.onChoose(key)}
      >
        {words}
        {state && <span className="quiet">{state}</span>}
      </button>
    );
  };
  return (
    <nav className="range-list" aria-label="Stock ranges">
      <ul>
        {newestRanges(props.ranges).map((newest) => (
          <li key={newest.id}>
            <p className="range-name" title={newest.name}>
              {newest.name}
            </p>
            {needsInventedWord(newest) && <p className="invented-word">invented</p>}
            <ul>
              {props.ranges
                .filter(({ id }) => id === newest.id)
                .toReversed()
                .map((range) => (
                  <li key={range.version}>
                    {button(
                      versionKey(range),
                      range.name,
                      `Version ${range.version}${range.version === newest.version ? '' : ', earlier'}`,
                    )}
                  </li>
                ))}
            </ul>
          </li>
        ))}
        {props.copies.map(({ key, name }) => (
          <li key={key}>
            <p className="range-name" title={name}>
              {name}
            </p>
            <ul>
              <li>{button(key, name, 'A copy, not saved yet')}</li>
            </ul>
          </li>
        ))}
      </ul>
    </nav>
  );
};
