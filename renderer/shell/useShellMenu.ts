import { useEffect, useRef } from 'react';
import type { MenuChoice } from '../../src/app/desktopBridge.ts';
import { CallRefused } from '../api/apiClient.ts';
import { desktopBridge } from '../api/carryOverDesktop.ts';

/** What a screen does on the choices of the desktop window's menu. */
export type MenuActions = Readonly<Partial<Record<MenuChoice, () => void>>>;

/**
 * Takes the choices of the desktop window's menu for as long as the screen is shown; the others show as not available.
 * In a browser there is no such menu and nothing happens.
 */
export const useShellMenu = (actions: MenuActions): void => {
  const latest = useRef(actions);
  latest.current = actions;
  const offers = Object.keys(actions).join(' ');
  useEffect(() => {
    const bridge = desktopBridge();
    bridge?.offerMenuChoices(offers.split(' ').filter((word) => word !== '') as MenuChoice[]);
    return () => bridge?.offerMenuChoices([]);
  }, [offers]);
  useEffect(() => desktopBridge()?.onMenuChoice((choice) => latest.current[choice]?.()), []);
};

/**
 * Lets the person pick a plan in the desktop shell's dialog; null when they think better of it. (A page may show its own
 * file dialog only straight after a click or a key in the page, which a menu choice is not.)
 *
 * Throws CallRefused where the file cannot be read.
 */
export const pickPlan = async (): Promise<File | null> => {
  const answer = await desktopBridge()?.pickPlan();
  if (answer && !answer.ok) throw new CallRefused(answer.error);
  const picked = answer?.value;
  return picked
    ? new File([new Uint8Array(picked.bytes)], picked.fileName, { type: 'application/pdf' })
    : null;
};
