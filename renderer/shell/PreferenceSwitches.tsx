import type { Preferences } from './usePreferences.ts';

/** Two words: the other unit, the other light. */
export const PreferenceSwitches = ({ preferences }: { readonly preferences: Preferences }) => {
  const { theme, unit, setTheme, setUnit } = preferences;
  return (
    <>
      <button type="button" className="word-button" onClick={() => setUnit(unit === 'mm' ? 'ft-in' : 'mm')}>
        {unit === 'mm' ? 'Show feet and inches' : 'Show millimetres'}
      </button>
      <button
        type="button"
        className="word-button"
        onClick={() => setTheme(theme === 'light' ? 'dark' : 'light')}
      >
        {theme === 'light' ? 'Dark' : 'Light'}
      </button>
    </>
  );
};
