import { useEffect, useState } from 'react';
import type { StockRangeRef } from '../../src/document/projectDocument.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

/** The stock range that a project was fitted with; null until it is there. Why it is not goes to `onTrouble`. */
export const useStockRange = (
  api: ApiClient,
  wanted: StockRangeRef,
  onTrouble: (words: string) => void,
): StockRange | null => {
  const [range, setRange] = useState<StockRange | null>(null);
  useEffect(() => {
    let isCurrent = true;
    api.call('list-stock-ranges', {}).then(
      ({ ranges }) => {
        if (!isCurrent) return;
        const found = ranges.find((one) => one.id === wanted.id && one.version === wanted.version);
        setRange(found ?? null);
        if (!found)
          onTrouble(
            `The stock range “${wanted.id}” version ${wanted.version} of this project is not in the archive.`,
          );
      },
      (thrown: unknown) => isCurrent && onTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api, wanted.id, wanted.version, onTrouble]);
  return range;
};
