import type { DesktopBridge } from '../../src/app/desktopBridge.ts';
import type { CarryCall } from './apiClient.ts';

/** What the desktop shell put on this page; undefined in a browser. */
export const desktopBridge = (): DesktopBridge | undefined =>
  (globalThis as { readonly footrail?: DesktopBridge }).footrail;

/** Carries calls through the desktop shell's bridge. */
export const carryOverDesktop =
  (bridge: DesktopBridge): CarryCall =>
  async (method, input, signal) => {
    if (signal?.aborted) return { ok: false, error: { code: 'cancelled', message: 'Cancelled.' } };
    const { answer, cancel } = bridge.api[method](input);
    signal?.addEventListener('abort', cancel, { once: true });
    try {
      return await answer;
    } finally {
      signal?.removeEventListener('abort', cancel);
    }
  };
