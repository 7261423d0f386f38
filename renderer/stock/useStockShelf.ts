import { useEffect, useSyncExternalStore } from 'react';
import type { StockShelf, StockShelfState } from './stockShelf.ts';

/** The stock ranges, kept current; reads them where nobody has yet. */
export const useStockShelf = (shelf: StockShelf): StockShelfState => {
  const state = useSyncExternalStore(shelf.subscribe, shelf.state);
  useEffect(() => {
    if (shelf.state().status !== 'ready') void shelf.read();
  }, [shelf]);
  return state;
};
