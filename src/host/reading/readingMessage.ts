import type { RegisteredPages, RegistrationBasis } from '../../app/revision/registeredPages.ts';
import type { ReadAnswer } from '../../scale/readContract.ts';
import type { ReadingFailure } from './readingFailure.ts';
import type { LayerSwitches, PageSize } from './readPage.ts';

/** What the reading thread is asked. */
export type ReadingRequest =
  | { readonly kind: 'pages'; readonly bytes: Uint8Array; readonly password?: string | undefined }
  | ({ readonly kind: 'page' } & PageToRead)
  | {
      readonly kind: 'register';
      readonly old: PageToRead;
      readonly next: PageToRead;
      readonly basis: RegistrationBasis;
    };

/** One page of a plan as the reading thread is asked for it. */
export interface PageToRead {
  readonly bytes: Uint8Array;
  readonly page: number;
  readonly password?: string | undefined;
  readonly layers?: LayerSwitches | undefined;
}

/** What it answers: any number of progress messages, then one of the others. */
export type ReadingMessage =
  | { readonly kind: 'progress'; readonly done: number; readonly of: number }
  | { readonly kind: 'failed'; readonly failure: ReadingFailure }
  | { readonly kind: 'pages'; readonly pages: readonly PageSize[] }
  | {
      readonly kind: 'page';
      readonly answer: ReadAnswer;
      readonly linework: Uint8Array;
      readonly text: string;
    }
  | { readonly kind: 'registered'; readonly registered: RegisteredPages };
