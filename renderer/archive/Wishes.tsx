import type { ReactNode } from 'react';
import type { ProjectSearch } from '../../src/app/search/projectSearch.ts';
import { jobStates } from '../../src/document/job.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { LengthField } from '../rail/LengthField.tsx';
import { type FoundPage, isEverything } from './useProjectSearch.ts';

/** The search with some wishes changed; what is undefined is no longer wished. */
type Changed = { readonly [Wish in keyof ProjectSearch]?: ProjectSearch[Wish] | undefined };

const withChanges = (search: ProjectSearch, changes: Changed): ProjectSearch =>
  Object.fromEntries(
    Object.entries({ ...search, ...changes }).filter(([, wish]) => wish !== undefined && wish !== ''),
  );

const clientsShown = 8;

const Group = ({ words, children }: { readonly words: string; readonly children: ReactNode }) => (
  <fieldset className="wishes-group">
    <legend>{words}</legend>
    {children}
  </fieldset>
);

/** What projects are narrowed down by, beside the words. Each value says how many there are. */
export const Wishes = (props: {
  readonly search: ProjectSearch;
  readonly page: FoundPage | null;
  readonly unit: DisplayUnit;
  readonly onSearch: (search: ProjectSearch) => void;
}) => {
  const { search, page, unit } = props;
  const change = (changes: Changed) => props.onSearch(withChanges(search, changes));
  const countOf = (state: string) => page?.states.find(({ value }) => value === state)?.count ?? 0;
  const states = search.states ?? [];
  const clients = page?.clients ?? [];
  const shownClients = clients.slice(0, clientsShown);
  const date = (words: string, wish: 'tenderFrom' | 'tenderTo' | 'changedFrom' | 'changedTo') => (
    <label className="field">
      <span>{words}</span>
      <input
        type="date"
        value={search[wish] ?? ''}
        onChange={(event) => change({ [wish]: event.target.value })}
      />
    </label>
  );
  return (
    <section className="wishes" aria-label="Narrow down">
      <Group words="State">
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
      </Group>
      <Group words="Client">
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
            {clients.length === 0 && <li className="quiet">none named</li>}
          </ul>
        ) : (
          <p className="wish is-on">
            <span className="wish-name">{search.client}</span>
            <button type="button" className="word-button" onClick={() => change({ client: undefined })}>
              any client
            </button>
          </p>
        )}
      </Group>
      <Group words="A run between">
        <div className="wishes-pair">
          <LengthField
            label="from"
            lengthMm={search.runFromMm ?? null}
            unit={unit}
            emptyWords="any"
            onChange={(lengthMm) => change({ runFromMm: lengthMm ?? undefined })}
          />
          <LengthField
            label="to"
            lengthMm={search.runToMm ?? null}
            unit={unit}
            emptyWords="any"
            onChange={(lengthMm) => change({ runToMm: lengthMm ?? undefined })}
          />
        </div>
      </Group>
      <Group words="Tender date">
        <div className="wishes-pair">
          {date('from', 'tenderFrom')}
          {date('to', 'tenderTo')}
        </div>
      </Group>
      <Group words="Last changed">
        <div className="wishes-pair">
          {date('from', 'changedFrom')}
          {date('to', 'changedTo')}
        </div>
      </Group>
      {search.planSha256 && (
        <Group words="Plan">
          <p className="wish is-on">
            <span>with this very file</span>
            <button type="button" className="word-button" onClick={() => change({ planSha256: undefined })}>
              any plan
            </button>
          </p>
        </Group>
      )}
      {!isEverything(search) && (
        <button type="button" className="word-button" onClick={() => props.onSearch({})}>
          Everything again
        </button>
      )}
    </section>
  );
};
