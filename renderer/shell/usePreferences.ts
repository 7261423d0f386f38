import { useCallback, useEffect, useState } from 'react';
import type { DisplayUnit } from '../../src/units/formatLength.ts';

export interface Preferences {
  readonly theme: 'light' | 'dark';
  readonly unit: DisplayUnit;
  readonly setTheme: (theme: 'light' | 'dark') => void;
  readonly setUnit: (unit: DisplayUnit) => void;
}

const stored = <Value extends string>(key: string, allowed: readonly Value[]): Value | null => {
  const value = window.localStorage.getItem(key);
  return allowed.find((one) => one === value) ?? null;
};

const preferred = (): 'light' | 'dark' =>
  window.matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';

/** How this window looks and which unit it shows. Kept with the window, never in a project. */
export const usePreferences = (): Preferences => {
  const [theme, setThemeState] = useState<'light' | 'dark'>(
    () => stored('footrail-theme', ['light', 'dark']) ?? preferred(),
  );
  const [unit, setUnitState] = useState<DisplayUnit>(() => stored('footrail-unit', ['mm', 'ft-in']) ?? 'mm');

  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
  }, [theme]);

  const setTheme = useCallback((next: 'light' | 'dark') => {
    window.localStorage.setItem('footrail-theme', next);
    setThemeState(next);
  }, []);
  const setUnit = useCallback((next: DisplayUnit) => {
    window.localStorage.setItem('footrail-unit', next);
    setUnitState(next);
  }, []);
  return { theme, unit, setTheme, setUnit };
};
