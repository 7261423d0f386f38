import { useEffect, useState } from 'react';
import type { ProjectSearch } from '../../src/app/search/projectSearch.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { type ChangedWishes, WishGroup } from './WishGroup.tsx';

interface Named {
  readonly id: string;
  readonly name: string;
}

interface Stock {
  /** Each range once, by the name of its latest version. */
  readonly ranges: readonly Named[];
  /** What can be wanted as a station: any item of any range, each once. */
  readonly stations: readonly Named[];
}

const byName = (one: Named, other: Named) => one.name.localeCompare(other.name);

const readStock = async (api: ApiClient): Promise<Stock> => {
  const { ranges } = await api.call('list-stock-ranges', {});
  const names = new Map(ranges.map(({ id, name }) => [id, name]));
  const items = new Map(ranges.flatMap((range) => range.items).map(({ id, name }) => [id, name]));
  const named = (map: ReadonlyMap<string, string>) =>
    [...map].map(([id, name]) => ({ id, name })).sort(byName);
  return { ranges: named(names), stations: named(items) };
};

/** Narrowing down by stock: the range that a project uses, and the stations that it wants, all of them. */
export const StockWishes = (props: {
  readonly api: ApiClient;
  readonly search: ProjectSearch;
  readonly onChange: (changes: ChangedWishes) => void;
  readonly onTrouble: (words: string) => void;
}) => {
  const { api, search, onChange, onTrouble } = props;
  const [stock, setStock] = useState<Stock>({ ranges: [], stations: [] });
  useEffect(() => {
    let isCurrent = true;
    readStock(api).then(
      (found) => isCurrent && setStock(found),
      (thrown: unknown) => isCurrent && onTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api, onTrouble]);
  const { stations = [], rangeId } = search;
  const nameOf = (id: string) => stock.stations.find((one) => one.id === id)?.name ?? id;
  const isKnown = rangeId === undefined || stock.ranges.some(({ id }) => id === rangeId);
  return (
    <>
      <WishGroup words="Stations wanted">
        <div className="wishes-pair">
          <ul>
            {stations.map((id) => (
              <li key={id} className="wish is-on">
                <span className="wish-name" title={nameOf(id)}>
                  {nameOf(id)}
                </span>
                <button
                  type="button"
                  className="word-button"
                  aria-label={`Without ${nameOf(id)}`}
                  onClick={() => {
                    const rest = stations.filter((one) => one !== id);
                    onChange({ stations: rest.length === 0 ? undefined : rest });
                  }}
                >
                  any
                </button>
              </li>
            ))}
          </ul>
          <select
            aria-label="Station wanted"
            value=""
            disabled={stations.length >= 20}
            onChange={(event) => onChange({ stations: [...stations, event.target.value] })}
          >
            <option value="">{stations.length === 0 ? 'any station' : 'and …'}</option>
            {stock.stations
              .filter(({ id }) => !stations.includes(id))
              .map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
          </select>
        </div>
      </WishGroup>
      <WishGroup words="Stock range">
        <div className="wishes-pair">
          <select
            aria-label="Stock range"
            value={rangeId ?? ''}
            onChange={(event) => onChange({ rangeId: event.target.value || undefined })}
          >
            <option value="">any range</option>
            {!isKnown && <option value={rangeId}>{rangeId}</option>}
            {stock.ranges.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </div>
      </WishGroup>
    </>
  );
};
