// @vitest-environment happy-dom
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type ApiClient, apiClientOver } from '../../../renderer/api/apiClient.ts';
import type { Preferences } from '../../../renderer/shell/usePreferences.ts';
import { StockScreen } from '../../../renderer/stock/StockScreen.tsx';
import { createStockShelf, rangeWords, type StockShelf } from '../../../renderer/stock/stockShelf.ts';
import type { ApiAnswer } from '../../../src/app/apiMethods.ts';
import { createApi } from '../../../src/app/createApi.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { portsForTest } from '../../app/portsForTest.ts';

(globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;

let root: Root;
let client: ApiClient;
let shelf: StockShelf;
let unit: Preferences['unit'];

const preferences = (): Preferences => ({
  theme: 'light',
  unit,
  setTheme: () => undefined,
  setUnit: () => undefined,
});

const show = async () => {
  await act(async () => {
    root.render(
      <StockScreen
        api={client}
        shelf={shelf}
        preferences={preferences()}
        first={null}
        leaveWords="Archive"
        onLeave={() => undefined}
      />,
    );
  });
};
const hide = () => act(async () => root.render(null));
const cell = (label: string): HTMLInputElement => {
  const found = document.querySelector<HTMLInputElement>(`input[aria-label="${label}"]`);
  if (!found) throw new Error(`no cell ${label}`);
  return found;
};
const type = (label: string, text: string) =>
  act(async () => {
    const input = cell(label);
    input.focus();
    const setValue = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set;
    setValue?.call(input, text);
    input.dispatchEvent(new Event('input', { bubbles: true }));
    input.blur();
  });
const press = (words: RegExp) =>
  act(async () => {
    const button = [...document.querySelectorAll('button')].find((one) => words.test(one.textContent ?? ''));
    if (!button) throw new Error(`no button ${words}`);
    button.click();
  });
const state = () => document.querySelector('.save-state')?.textContent;

const price900 = 'Price of Module 900, open with undershelf';
const width900 = 'Width of Module 900, open with undershelf';

beforeEach(() => {
  document.body.innerHTML = '<div id="root"></div>';
  root = createRoot(document.getElementById('root')!);
  unit = 'mm';
  const api = createApi(portsForTest());
  client = apiClientOver((method, input) => api.call(method, input) as Promise<ApiAnswer<unknown>>);
  shelf = createStockShelf(client);
});

afterEach(() => act(() => root.unmount()));

describe('the range editor', () => {
  it('says what changed, takes it back step by step, and does it again', async () => {
    await show();
    expect(state()).toBe('Version 1, as saved.');
    await type(price900, '850');
    await type(price900, '860');
    expect(state()).toBe('Not saved: 1 piece changed.');
    await press(/^Undo$/);
    expect(cell(price900).value).toBe('850');
    await press(/^Undo$/);
    expect([cell(price900).value, state()]).toEqual(['845', 'Version 1, as saved.']);
    await press(/^Redo$/);
    await press(/^Redo$/);
    expect(cell(price900).value).toBe('860');
    await press(/^Drop the changes$/);
    expect(cell(price900).value).toBe('845');
  });

  it('keeps a draft while one goes elsewhere, and marks its version as not saved', async () => {
    await show();
    await type(price900, '850');
    await hide();
    await show();
    expect(cell(price900).value).toBe('850');
    expect(document.querySelector('.pick-version')?.textContent).toBe('Version 1 · not saved');
    await press(/^Save as version 2$/);
    expect(state()).toBe('Version 2, as saved.');
    expect(shelf.state().unsaved).toEqual([]);
  });

  it('keeps what does not read, names the cell and the reason, and saves nothing meanwhile', async () => {
    await show();
    await type(width900, 'about 900');
    expect(cell(width900).value).toBe('about 900');
    expect(cell(width900).getAttribute('aria-invalid')).toBe('true');
    expect(document.querySelector('.piece-fault')?.textContent).toMatch(/^Width: Found "about 900"/);
    await press(/^Save as version 2$/);
    expect(shelf.state().ranges).toHaveLength(1);
    await hide();
    await show();
    expect(cell(width900).value).toBe('about 900');
  });

  it('takes lengths in feet and inches and keeps them exactly in millimetres (1 in = 25.4 mm)', async () => {
    unit = 'ft-in';
    await show();
    expect(cell(width900).value).toBe(`2'-11 7/16"`);
    // Leaving a cell as it was shown must not round what it holds.
    await type(width900, `2'-11 7/16"`);
    expect(state()).toBe('Version 1, as saved.');
    await type(width900, `3'-0 1/8"`);
    await press(/^Save as version 2$/);
    const saved = shelf
      .state()
      .ranges.at(-1)
      ?.items.find(({ id }) => id === 'module-900');
    // 36 1/8 in = 36.125 x 25.4 mm = 917.575 mm.
    expect(saved?.widthMm).toBe(917.575);
  });

  it('does not save over a version that was saved elsewhere meanwhile, and loses nothing', async () => {
    await show();
    await type(price900, '850');
    await client.call('save-stock-range', { range: { ...demoRange, note: 'Of another window.' }, after: 1 });
    await press(/^Save as version 2$/);
    expect(state()).toMatch(/Version 2 of "demo-range" was saved since version 1 was opened/);
    expect(cell(price900).value).toBe('850');
    expect(shelf.state().ranges.map(({ version }) => version)).toEqual([1, 2]);
    await press(/^Save as version 3$/);
    expect(shelf.state().ranges.map(({ version }) => version)).toEqual([1, 2, 3]);
  });

  it('adds, copies and removes pieces, each as one step', async () => {
    await show();
    await press(/^Add a module$/);
    expect(cell('Name of New module').value).toBe('New module');
    expect(document.activeElement).toBe(cell('Name of New module'));
    expect(state()).toBe('Not saved: 1 piece new.');
    await press(/^Copy this piece$/);
    expect(state()).toBe('Not saved: 2 pieces new.');
    await press(/^Remove this piece$/);
    await press(/^Undo$/);
    await press(/^Undo$/);
    await press(/^Undo$/);
    expect(state()).toBe('Version 1, as saved.');
  });

  it('shows a range without pieces as the start that it is', async () => {
    await client.call('save-stock-range', {
      range: { ...demoRange, id: 'aaa', name: 'A new yard', items: [], cornerUnits: [] },
      after: 0,
    });
    await show();
    expect(document.querySelector('.stock-range h2')?.textContent).toBe('A new yard (invented), version 1');
    expect(document.body.textContent).toContain(
      'No pieces yet. Add the first one below, or read a CSV list.',
    );
  });
});

describe('a range’s name', () => {
  it('says that it is invented, once', () => {
    expect(rangeWords(demoRange)).toBe('Demo range (invented), version 1');
    expect(rangeWords({ ...demoRange, name: 'Quay Yard' })).toBe('Quay Yard (invented), version 1');
    expect(rangeWords({ ...demoRange, name: 'Quay Yard', invented: false })).toBe('Quay Yard, version 1');
  });
});
