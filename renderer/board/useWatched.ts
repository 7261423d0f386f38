import { useSyncExternalStore } from 'react';
import type { Watched } from './board.ts';

/** Reads a watched value in a component and renders it anew on change (a zoom readout, for example). */
export function useWatched<T>(value: Watched<T>): T {
  return useSyncExternalStore(value.subscribe, value.get);
}
