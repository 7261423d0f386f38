import { useEffect, useState } from 'react';
import type { Sheet } from '../../src/document/projectDocument.ts';
import type { LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { indexInWorker } from './indexInWorker.ts';

/** The sheet's linework, indexed for snapping; null until it has been read, and where it cannot be. */
export const useLineworkIndex = (
  api: ApiClient,
  sheet: Sheet | null,
  password: string | undefined,
): LineworkIndex | null => {
  const [index, setIndex] = useState<LineworkIndex | null>(null);
  const sha256 = sheet?.planSha256;
  const page = sheet?.pageNumber;
  const layers = sheet?.layers;
  useEffect(() => {
    setIndex(null);
    if (!sha256 || !page) return;
    const abort = new AbortController();
    api
      .call(
        'sheet-linework',
        { sha256, page, ...(password ? { password } : {}), ...(layers ? { layers } : {}) },
        abort.signal,
      )
      .then(
        ({ bytes }) =>
          indexInWorker(bytes, abort.signal).then(
            (made) => {
              if (!abort.signal.aborted) setIndex(made);
            },
            (thrown: unknown) => {
              // What came over our own wire is linework: that it can't be indexed is a defect, not bad input.
              if (!abort.signal.aborted)
                setIndex(() => {
                  throw thrown;
                });
            },
          ),
        // Without linework everything but snapping works, and why it is missing is said where the sheet is read.
        () => undefined,
      );
    return () => abort.abort();
  }, [api, sha256, page, password, layers]);
  return index;
};
