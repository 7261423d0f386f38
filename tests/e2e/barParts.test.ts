import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { paperPointAt } from '../../src/measure/runPosition.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { countedHand } from './countedHand.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { projectPage } from './projectPage.ts';

/** The demo sheet: A1 landscape (ISO 216), 841 x 594 mm. */
const a1 = { viewBox: [0, 0, (841 * 72) / 25.4, (594 * 72) / 25.4], rotationDeg: 0, userUnit: 1 } as const;

const { frontBar, backBar, ratio } = demoPlanTruth;
const exactly = { ratio, relativeUncertainty: 0, userUnit: 1 };
const onBar = (straight: number, alongMm: number, backMm = 0) =>
  paperPointAt({ ...frontBar, frontLine: [...frontBar.frontLine] }, straight, alongMm, backMm, exactly);

let browser: Browser;
let host: HostProcess;
let folder: string;
let context: BrowserContext;
let page: Page;
const complaints: string[] = [];

const project = () => projectPage(page, a1);
const hand = () => countedHand(page, a1);
const elevation = () => page.locator('.elevation');
const zone = (name: RegExp) => page.locator('.zone-lines').getByRole('button', { name });
/** Types a length into a field by its label, as an operator does. */
const set = async (label: string | RegExp, text: string) => {
  const field = page.getByLabel(label, typeof label === 'string' ? { exact: true } : {});
  await field.fill(text);
  await field.press('Enter');
};
const part = (name: RegExp) => page.getByRole('button', { name }).and(page.locator('.part-target'));

beforeAll(async () => {
  browser = await openBrowser();
});

// Each job starts from the demo in an archive of its own.
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-parts-'));
  host = await startHostProcess(join(folder, 'archive'));
  context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await context.newPage();
  page.setDefaultTimeout(20_000);
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(host.url);
  await page.getByRole('button', { name: /demo project/ }).click();
  await page.locator('[data-drawing=sharp]').waitFor({ timeout: 60_000 });
  await project().openStep('Runs');
});

afterEach(async () => {
  await context?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
  expect(complaints).toEqual([]);
});

afterAll(async () => {
  await browser?.close();
});

describe('parts of a bar in a browser', () => {
  it('describes a bay, a low section and a column, and says where one does not go or a rule is not met', async () => {
    await zone(/^B Glasswasher/).click();
    await page.getByText(/^700\smm kept free/).waitFor();
    // The demo's aisle: from y = 7 800, the front bar's back line, to y = 9 180, the back bar's front.
    await page.getByText(/980\smm of 1\D?380\smm aisle is left/).waitFor();
    await set('Door swings out', '1400');
    await page.getByText(/20\smm too far/).waitFor();
    await set('Height needed', '900');
    await page.getByText(/there is 860\smm: 40\smm too little/).waitFor();
    await zone(/^B Glasswasher/).press('Enter');
    await page.getByText('bay: does not go here as described').waitFor();
    await part(/^Glasswasher, by others, 700/).waitFor();

    // A low section beside the published rules, its width typed.
    await hand().press('Mark a low section');
    await hand().pick(onBar(0, 700));
    await hand().pick(onBar(0, 1700));
    await zone(/^L Low section/).click();
    await set('Width', '900');
    const rule = page.locator('.rule-lines > li', { hasText: '904.4.1' });
    // 36 in are 914.4 mm: 14.4 short of it.
    await expect.poll(() => rule.textContent()).toMatch(/not met.*14\smm short/);
    await set('Width', '1000');
    await set('Its top above the floor', '34 in');
    await expect.poll(() => rule.textContent()).toMatch(/904\.4\.1 met/);
    await page.getByText(/local code and the access officer/).waitFor();
    await part(/^Low section, 1\D?000/).waitFor();

    // A column that takes only the back.
    await zone(/^X Column/).click();
    await page.getByLabel(/^Takes/).selectOption('back');
    await set(/it takes$/, '200');
    await page.getByText(/column, takes 200\smm at the back/).waitFor();
    await project().saved();
  });

  it('sets levels and offers what an end meets, and draws both', async () => {
    await page.getByText(/^Levels/).click();
    await set('Floor at the finish', '-70');
    await page.getByText(/10\smm too little/).waitFor();
    await expect.poll(() => elevation().textContent()).toMatch(/feet fall 10\smm short/);
    await set('Floor at the finish', '-40');
    await set('Floor behind is higher by', '100');
    await expect.poll(() => elevation().textContent()).not.toMatch(/short/);
    await page.getByText(/From the floor behind, the top is 780\smm to 820\smm high/).waitFor();

    // An end that lies on another run's outline.
    await hand().press('Trace');
    await hand().pick(onBar(1, 7700, 700));
    await hand().pick(onBar(1, 7700, 1300));
    await hand().key('Enter');
    await hand().pick(onBar(1, 7100, 1000));
    await page.getByRole('button', { name: 'It meets Front bar' }).first().click();
    await expect.poll(() => elevation().textContent()).toMatch(/Start: meets Front bar/);
    expect(await page.getByLabel(/^Meets/).inputValue()).toMatch(/^run-/);
    await project().saved();
  });

  it('copies, mirrors and reorders runs from the keyboard, each as one step', async () => {
    const runs = async () => (await page.locator('.pick-name[aria-pressed]').allTextContents()).join();
    await page.getByRole('button', { name: 'Copy mirrored' }).press('Enter');
    await expect.poll(runs).toBe('Front bar,Back bar,Front bar 2');
    await expect.poll(() => page.getByLabel(/^Back line/).inputValue()).toBe('right');
    expect(await page.locator('.zone-lines > li').count()).toBe(3);
    await page.getByRole('button', { name: 'Earlier' }).press('Enter');
    await expect.poll(runs).toBe('Front bar,Front bar 2,Back bar');
    const marks = () => elevation().textContent();
    await expect.poll(marks).toMatch(/2\.01/);
    await page.getByRole('button', { name: 'Mirror', exact: true }).press('Enter');
    await expect.poll(() => page.getByLabel(/^Back line/).inputValue()).toBe('left');
    await set('Name', 'Terrace bar');
    await expect.poll(runs).toBe('Front bar,Terrace bar,Back bar');
    for (let step = 0; step < 4; step += 1) await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(runs).toBe('Front bar,Back bar');
    await project().saved();
  });

  it('asks for symmetry, and refits while a station is dragged', async () => {
    await page.getByText(/^Symmetry/).click();
    await page.getByLabel(/^Straight 2/).selectOption('middle');
    await page.getByText('Symmetry: of 1 straight').waitFor();
    await project().saved();
    const station = frontBar.wantedStations.find(({ item }) => item === 'beer-station-600');
    const name = demoRange.items.find(({ id }) => id === station?.item)?.name;
    if (!station || !name) throw new Error('the demo wants a beer station');
    const beer = page.locator('.part-target').and(page.getByRole('button', { name }));
    const place = async () => Number(await beer.getAttribute('x'));
    const before = await place();
    const { straight, nearMm } = station;
    await hand().drag(onBar(straight, nearMm), onBar(straight, nearMm - 1300), async () => {
      // Not let go yet: the piece itself, not only its wish, stands where the fit now has it.
      await expect.poll(place).not.toBe(before);
      expect(await page.getByRole('button', { name: 'Redo' }).isDisabled()).toBe(true);
    });
    await project().saved();
    expect(await place()).not.toBe(before);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(place).toBe(before);
  });

  it('takes a station in the hand that is asked for, where the range has both', async () => {
    const [module] = demoRange.items;
    const hands = (['left', 'right'] as const).map((hand) => ({
      ...module,
      id: `dish-table-900-${hand}`,
      name: `Dish table 900, ${hand} hand`,
      kind: 'station',
      widthMm: 900,
      fill: false,
      hand,
    }));
    const { items } = demoRange;
    const range = { ...demoRange, items: [...items, ...hands] };
    const kept = await page.evaluate(
      async (body) => {
        const headers = { 'content-type': 'application/json' };
        const answer = await fetch('/api/save-stock-range', { method: 'POST', headers, body });
        return answer.status;
      },
      JSON.stringify({ range, after: demoRange.version }),
    );
    expect(kept).toBe(200);
    await page.reload();
    await page.getByText('The Tin Otter').first().click();
    await page.locator('[data-drawing=sharp]').waitFor({ timeout: 60_000 });
    await project().openStep('Fit');
    await page.getByRole('button', { name: /^Refit with version/ }).click();
    await project().openStep('Runs');
    await page.getByRole('button', { name: 'Back bar', exact: true }).click();
    await page.getByLabel('Want a station').selectOption('dish-table-900-left');
    const [from, to] = backBar.frontLine;
    await hand().pick(paperPoint((from.x + to.x) / 2, from.y));
    // Whichever of the two was chosen to begin with, the hand that is asked for stands there.
    const wished = page.getByLabel('Hand, from the working side');
    await wished.selectOption('right');
    await part(/Dish table 900, right hand/).waitFor();
    await wished.selectOption('left');
    await part(/Dish table 900, left hand/).waitFor();
    await wished.selectOption('');
    await part(/Dish table 900/).waitFor();
    await project().saved();
  });
});
