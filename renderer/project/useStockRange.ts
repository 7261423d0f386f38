import { useEffect } from 'react';
import type { StockRangeRef } from '../../src/document/projectDocument.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { StockShelf } from '../stock/stockShelf.ts';
import { useStockShelf } from '../stock/useStockShelf.ts';

/** The stock range that a project was fitted with; null until it is there. Why it is not goes to `onTrouble`. */
export const useStockRange = (
  shelf: StockShelf,
  wanted: StockRangeRef,
  onTrouble: (words: string) => void,
): StockRange | null => {
  const { status, ranges, message } = useStockShelf(shelf);
  const found = ranges.find((one) => one.id === wanted.id && one.version === wanted.version) ?? null;
  const trouble =
    status === 'failed' && !found
      ? message
      : status === 'ready' && !found
        ? `The stock range “${wanted.id}” version ${wanted.version} of this project is not in the archive.`
        : null;
  useEffect(() => {
    if (trouble) onTrouble(trouble);
  }, [trouble, onTrouble]);
  return found;
};
