import type { ReactNode } from 'react';
import type { ProjectSearch } from '../../src/app/search/projectSearch.ts';

/** The search with some wishes changed; what is undefined is no longer wished. */
export type ChangedWishes = { readonly [Wish in keyof ProjectSearch]?: ProjectSearch[Wish] | undefined };

/** Wishes of one kind under their heading. */
export const WishGroup = ({ words, children }: { readonly words: string; readonly children: ReactNode }) => (
  <fieldset className="wishes-group">
    <legend>{words}</legend>
    {children}
  </fieldset>
);
