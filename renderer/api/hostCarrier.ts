import type { CarryCall } from './apiClient.ts';
import { carryOverHttp } from './carryOverHttp.ts';

declare global {
  interface Window {
    /** Given by the desktop shell's preload; absent over the loopback host. */
    readonly footrail?: { readonly call: CarryCall };
  }
}

/** Whatever carries calls where this page runs. */
export const hostCarrier = (): CarryCall => window.footrail?.call ?? carryOverHttp;
