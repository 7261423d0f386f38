import { useCallback, useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectSearch } from '../../src/app/search/projectSearch.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

export type FoundPage = ApiOutput<'search-projects'>;
export type FoundProject = FoundPage['projects'][number];

export const projectsPerPage = 50;
/** Letters typed in one go make one search. */
const typingMs = 120;

export interface ProjectSearching {
  readonly search: ProjectSearch;
  /** Where the page found begins. */
  readonly offset: number;
  /** The last page found; it stays while the next one is looked for. Null before the first. */
  readonly page: FoundPage | null;
  /** True where the archive holds no project at all. */
  readonly isArchiveEmpty: boolean;
  readonly trouble: string | null;
  readonly setSearch: (search: ProjectSearch) => void;
  readonly setOffset: (offset: number) => void;
  /** Looks again: something was taken in. */
  readonly refresh: () => void;
}

/** True where nothing in particular is sought. */
export const isEverything = ({ order: _order, descending: _descending, ...wishes }: ProjectSearch): boolean =>
  Object.values(wishes).every(
    (wish) => wish === undefined || wish === '' || (Array.isArray(wish) && wish.length === 0),
  );

/** Searches the archive as the wishes change; an answer that comes late never takes a newer one's place. */
export const useProjectSearch = (api: ApiClient): ProjectSearching => {
  const [wanted, setWanted] = useState<{ search: ProjectSearch; offset: number; turn: number }>({
    search: {},
    offset: 0,
    turn: 0,
  });
  const [found, setFound] = useState<{
    readonly page: FoundPage;
    readonly of: ProjectSearch;
    readonly offset: number;
  } | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);

  useEffect(() => {
    const abort = new AbortController();
    const { search, offset, turn } = wanted;
    const timer = window.setTimeout(
      () => {
        api.call('search-projects', { search, offset, most: projectsPerPage }, abort.signal).then(
          (page) => {
            if (abort.signal.aborted) return;
            setFound({ page, of: search, offset });
            setTrouble(null);
          },
          (thrown: unknown) => {
            if (!abort.signal.aborted) setTrouble(wordsFor(thrown));
          },
        );
      },
      turn === 0 ? 0 : typingMs,
    );
    return () => {
      window.clearTimeout(timer);
      abort.abort();
    };
  }, [api, wanted]);

  return {
    search: wanted.search,
    offset: found?.offset ?? 0,
    page: found?.page ?? null,
    isArchiveEmpty: found?.page.total === 0 && isEverything(found.of),
    trouble,
    setSearch: useCallback((search) => setWanted(({ turn }) => ({ search, offset: 0, turn: turn + 1 })), []),
    setOffset: useCallback((offset) => setWanted((before) => ({ ...before, offset })), []),
    refresh: useCallback(() => setWanted((before) => ({ ...before, turn: before.turn + 1 })), []),
  };
};
