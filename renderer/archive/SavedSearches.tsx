import { type FormEvent, useCallback, useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectSearch } from '../../src/app/search/projectSearch.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { isEverything } from './useProjectSearch.ts';

type Saved = ApiOutput<'list-saved-searches'>['searches'];

/** The person asked for the field just now. */
const focusOnShow = (input: HTMLInputElement | null) => input?.focus();

/** Searches kept by name for everyone who uses this archive. */
export const SavedSearches = (props: {
  readonly api: ApiClient;
  readonly search: ProjectSearch;
  readonly onSearch: (search: ProjectSearch) => void;
  readonly onTrouble: (words: string) => void;
}) => {
  const { api, search, onTrouble } = props;
  const [saved, setSaved] = useState<Saved>([]);
  const [name, setName] = useState<string | null>(null);

  const refresh = useCallback(() => {
    api.call('list-saved-searches', {}).then(
      ({ searches }) => setSaved(searches),
      (thrown: unknown) => onTrouble(wordsFor(thrown)),
    );
  }, [api, onTrouble]);
  useEffect(refresh, [refresh]);

  const act = (calling: Promise<unknown>) => {
    calling.then(refresh, (thrown: unknown) => onTrouble(wordsFor(thrown)));
  };
  const save = (event: FormEvent) => {
    event.preventDefault();
    if (!name?.trim()) return;
    act(api.call('save-search', { name: name.trim(), search }));
    setName(null);
  };

  return (
    <fieldset className="wishes-group">
      <legend>Saved searches</legend>
      <ul>
        {saved.map((one) => (
          <li key={one.name} className="wish">
            <button
              type="button"
              className="word-button wish-name"
              onClick={() => props.onSearch(one.search)}
            >
              {one.name}
            </button>
            <button
              type="button"
              className="word-button"
              aria-label={`Forget the search ${one.name}`}
              onClick={() => act(api.call('remove-saved-search', { name: one.name }))}
            >
              forget
            </button>
          </li>
        ))}
        {saved.length === 0 && isEverything(search) && (
          <li className="quiet">Narrow the list down, then keep the search here.</li>
        )}
      </ul>
      {name === null ? (
        !isEverything(search) && (
          <button type="button" className="word-button" onClick={() => setName('')}>
            Save this search
          </button>
        )
      ) : (
        <form onSubmit={save} className="saved-form">
          <label className="field">
            <span>Its name</span>
            <input
              value={name}
              maxLength={80}
              ref={focusOnShow}
              onChange={(event) => setName(event.target.value)}
              onKeyDown={(event) => event.key === 'Escape' && setName(null)}
            />
          </label>
          <button type="submit" className="plain-button" disabled={!name.trim()}>
            Save
          </button>
        </form>
      )}
    </fieldset>
  );
};
