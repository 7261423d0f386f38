import type { ProjectSearch } from '../../src/app/search/projectSearch.ts';
import { jobStates } from '../../src/document/job.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { LengthField } from '../rail/LengthField.tsx';
import { StockWishes } from './StockWishes.tsx';
import { type FoundPage, isEverything } from './useProjectSearch.ts';
import { type ChangedWishes, WishGroup } from './WishGroup.tsx';

const withChanges = (search: ProjectSearch, changes: ChangedWishes): ProjectSearch =>
  Object.fromEntries(
    Object.entries({ ...search, ...changes }).filter(([, wish]) => wish !== undefined && wish !== ''),
  );

const clientsShown = 8;

/** No run is longer than 10 km: more is as much as that, for the search takes no larger number. */
const boundedMm = (lengthMm: number | null) =>
  lengthMm === null ? undefined : Math.min(lengthMm, 10_000_000);

type DateWish = 'tenderFrom' | 'tenderTo' | 'changedFrom' | 'changedTo' | 'retainedBefore';
type CountWish = 'piecesFrom' | 'piecesTo';

/** What projects are narrowed down by, beside the words. Each value says how many there are. */
export const Wishes = (props: {
  readonly api: ApiClient;
  readonly search: ProjectSearch;
  readonly page: FoundPage | null;
  readonly unit: DisplayUnit;
  readonly onSearch: (search: ProjectSearch) => void;
  readonly onTrouble: (words: string) => void;
  /** The projects past their day are asked for. */
  readonly onPast: () => void;
}) => {
  const { search, page, unit } = props;
  const change = (changes: ChangedWishes) => props.onSearch(withChanges(search, changes));
  const countOf = (state: string) => page?.states.find(({ value }) => value === state)?.count ?? 0;
  const states = search.states ?? [];
  const clients = page?.clients ?? [];
  const shownClients = clients.slice(0, clientsShown);
  const date = (words: string, wish: DateWish) => (
    <label className="field">
      <span>{words}</span>
      <input
        type="date"
        max="9999-12-31"
        value={search[wish] ?? ''}
        onChange={(event) => {
          // A year may be typed with six figures; dates as they are sent have four.
          const { value } = event.target;
          if (value.length <= 'yyyy-mm-dd'.length) change({ [wish]: value });
        }}
      />
    </label>
  );
  const pieces = (words: string, wish: CountWish) => (
    <label className="field">
      <span>{words}</span>
      <input
        type="number"
        min={0}
        max={1_000_000}
        step={1}
        placeholder="any"
        value={search[wish] ?? ''}
        onChange={(event) => {
          const count = event.target.valueAsNumber;
          change({ [wish]: Number.isInteger(count) && count >= 0 && count <= 1_000_000 ? count : undefined });
        }}
      />
    </label>
  );
  return (
    <section className="wishes" aria-label="Narrow down">
      <WishGroup words="State">
        <ul>
          {jobStates.map((state) => (
            <li key={state}>
              <label className="wish">
                <input
                  type="checkbox"
                  checked={states.includes(state)}
                  onChange={(event) => {
                    const next = jobStates.filter((one) =>
                      one === state ? event.target.checked : states.includes(one),
                    );
                    change({ states: next.length === 0 ? undefined : next });
                  }}
                />
                <span>{state}</span>
                <span className="wish-count">{countOf(state)}</span>
              </label>
            </li>
          ))}
        </ul>
      </WishGroup>
      <WishGroup words="Client">
        {search.client === undefined ? (
          <ul>
            {shownClients.map(({ value, count }) => (
              <li key={value}>
                <button type="button" className="wish" onClick={() => change({ client: value })}>
                  <span className="wish-name">{value}</span>
                  <span className="wish-count">{count}</span>
                </button>
              </li>
            ))}
            {clients.length > clientsShown && <li className="quiet">and more: type their name above</li>}
            {clients.length === 0 && (
              <li className="quiet">{isEverything(search) ? 'none named yet' : 'none among these'}</li>
            )}
          </ul>
        ) : (
          <p className="wish is-on">
            <span className="wish-name">{search.client}</span>
            <button type="button" className="word-button" onClick={() => change({ client: undefined })}>
              any client
            </button>
          </p>
        )}
      </WishGroup>
      <WishGroup words="A run between">
        <div className="wishes-pair">
          <LengthField
            label="from"
            lengthMm={search.runFromMm ?? null}
            unit={unit}
            emptyWords="any"
            onChange={(lengthMm) => change({ runFromMm: boundedMm(lengthMm) })}
          />
          <LengthField
            label="to"
            lengthMm={search.runToMm ?? null}
            unit={unit}
            emptyWords="any"
            onChange={(lengthMm) => change({ runToMm: boundedMm(lengthMm) })}
          />
        </div>
      </WishGroup>
      <WishGroup words="Pieces of kept fits">
        <div className="wishes-pair">
          {pieces('from', 'piecesFrom')}
          {pieces('to', 'piecesTo')}
        </div>
      </WishGroup>
      <StockWishes api={props.api} search={search} onChange={change} onTrouble={props.onTrouble} />
      <WishGroup words="Tender date">
        <div className="wishes-pair">
          {date('from', 'tenderFrom')}
          {date('to', 'tenderTo')}
        </div>
      </WishGroup>
      <WishGroup words="Last changed">
        <div className="wishes-pair">
          {date('from', 'changedFrom')}
          {date('to', 'changedTo')}
        </div>
      </WishGroup>
      <WishGroup words="To be kept until before">
        <div className="wishes-pair">{date('day', 'retainedBefore')}</div>
        <button type="button" className="word-button" onClick={props.onPast}>
          Past their day, and purging
        </button>
      </WishGroup>
      {search.planSha256 && (
        <WishGroup words="Plan">
          <p className="wish is-on">
            <span>with this very file</span>
            <button type="button" className="word-button" onClick={() => change({ planSha256: undefined })}>
              any plan
            </button>
          </p>
        </WishGroup>
      )}
      {!isEverything(search) && (
        <button type="button" className="word-button" onClick={() => props.onSearch({})}>
          Everything again
        </button>
      )}
    </section>
  );
};
