import { useEffect, useState } from 'react';
import type { Sheet } from '../../src/document/projectDocument.ts';
import type { ReadAnswer } from '../../src/scale/readContract.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

/** What the sheet says of itself, as far as it has been read. */
export type SheetReading =
  | { readonly status: 'none' }
  | { readonly status: 'reading' }
  | { readonly status: 'ready'; readonly answer: ReadAnswer }
  | { readonly status: 'failed'; readonly message: string };

/** Reads a sheet as data, off this thread. `password` opens a protected plan; it is never kept. */
export const useSheetReading = (
  api: ApiClient,
  sheet: Sheet | null,
  password: string | undefined,
): SheetReading => {
  const [reading, setReading] = useState<SheetReading>({ status: 'none' });
  const sha256 = sheet?.planSha256;
  const page = sheet?.pageNumber;
  const layers = sheet?.layers;
  useEffect(() => {
    if (!sha256 || !page) {
      setReading({ status: 'none' });
      return;
    }
    const abort = new AbortController();
    setReading({ status: 'reading' });
    api
      .call(
        'read-sheet',
        { sha256, page, ...(password ? { password } : {}), ...(layers ? { layers } : {}) },
        abort.signal,
      )
      .then(
        ({ reading: answer }) => {
          if (!abort.signal.aborted) setReading({ status: 'ready', answer });
        },
        (thrown: unknown) => {
          if (!abort.signal.aborted) setReading({ status: 'failed', message: wordsFor(thrown) });
        },
      );
    return () => abort.abort();
  }, [api, sha256, page, password, layers]);
  return reading;
};
