import type { CarryCall } from './apiClient.ts';
import { carryOverDesktop, desktopBridge } from './carryOverDesktop.ts';
import { carryOverHttp } from './carryOverHttp.ts';

/** Whatever carries calls where this page runs: the desktop shell's bridge where there is one, else HTTP. */
export const hostCarrier = (): CarryCall => {
  const bridge = desktopBridge();
  return bridge ? carryOverDesktop(bridge) : carryOverHttp;
};
