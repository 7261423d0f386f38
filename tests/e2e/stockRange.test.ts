import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { projectPage } from './projectPage.ts';

/** The demo sheet: A1 landscape (ISO 216), 841 x 594 mm. */
const a1 = {
  viewBox: [0, 0, (841 * 72) / 25.4, (594 * 72) / 25.4],
  rotationDeg: 0,
  userUnit: 1,
} as const;

let browser: Browser;
let host: HostProcess;
let folder: string;
const complaints: string[] = [];

let context: BrowserContext;

/** The address's token serves once; the pages after the first belong to its session. */
const openPage = async (): Promise<Page> => {
  const isFirst = context.pages().length === 0 && (await context.cookies()).length === 0;
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(isFirst ? host.url : new URL(host.url).origin);
  return page;
};

/** What axe-core finds against WCAG 2.2 A and AA, as `rule: element`. */
const accessFaults = async (page: Page, within: string): Promise<readonly string[]> => {
  await page.evaluate(axe.source);
  return page.evaluate(async (selector) => {
    const { axe: inPage } = window as unknown as { axe: typeof axe };
    const { violations } = await inPage.run(document.querySelector(selector) ?? document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
  }, within);
};

const priceOf = (page: Page, name: string) => page.getByLabel(`Price of ${name}`, { exact: true });
const saved = (page: Page, version: number) => page.getByText(`Version ${version}, as saved.`).waitFor();
const back = (page: Page) => page.locator('.stock-head .word-button').first().click();

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-e2e-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  context = await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('the stock range in a browser', () => {
  it('is typed in place, told what does not read, saved as the next version, and goes out and in as CSV', async () => {
    const page = await openPage();
    await page.getByRole('button', { name: 'Stock ranges' }).click();
    await page.getByRole('heading', { name: 'Demo range (invented), version 1' }).waitFor();
    const head = page.locator('.stock-head');
    for (const theme of ['Dark', 'Light']) {
      await page.getByRole('button', { name: /^Services and more of Beer station 600/ }).click();
      await page.getByText('Services that come up to it').waitFor();
      expect(await accessFaults(page, '.stock'), `before ${theme}`).toEqual([]);
      await page.getByRole('button', { name: /^Close Beer station 600|^Close of Beer station 600/ }).click();
      await head.getByRole('button', { name: theme }).click();
    }

    // By keyboard alone: type, go down a row, come back and mend.
    const price = priceOf(page, 'Module 900, open with undershelf');
    await price.fill('on request');
    await price.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
      'Price of Module 1200, open with undershelf',
    );
    await page.getByText('One cell needs work before this can be saved.').waitFor();
    await page.getByText('Found "on request", expected a number').waitFor();
    await page.getByRole('button', { name: /^Save as version 2/ }).click();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label')))
      .toBe('Price of Module 900, open with undershelf');
    await price.fill('899.5');
    await price.press('Tab');
    await page.getByText('Not saved: 1 piece changed.').waitFor();
    await page.getByRole('button', { name: /^Save as version 2/ }).click();
    await saved(page, 2);

    // Out, spoiled in one line, refused with line and column; mended, looked at, taken.
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save version 2 as CSV' }).click(),
    ]);
    const list = readFileSync(await download.path(), 'utf8');
    expect(list).toContain('899.5');
    const bad = join(folder, 'bad.csv');
    writeFileSync(bad, list.replace('899.5', '8.99,5 or so'));
    await page.getByLabel('CSV list').setInputFiles(bad);
    const errors = page.locator('.csv-errors tbody tr');
    await errors.first().waitFor();
    expect(await errors.first().locator('td').first().textContent()).toBe('3');
    expect(await priceOf(page, 'Module 900, open with undershelf').inputValue()).toBe('899.5');
    const good = join(folder, 'good.csv');
    writeFileSync(good, list.replace('899.5', '905'));
    await page.getByLabel('CSV list').setInputFiles(good);
    await page.getByText('price 899.5 → 905').waitFor();
    await page.getByRole('button', { name: 'Take these pieces' }).click();
    expect(await priceOf(page, 'Module 900, open with undershelf').inputValue()).toBe('905');
    await page.getByRole('button', { name: /^Save as version 3/ }).click();
    await saved(page, 3);

    // Earlier versions are as they were; a copy starts a range of its own.
    await page.getByRole('button', { name: 'Demo range (invented), version 1' }).click();
    expect(await priceOf(page, 'Module 900, open with undershelf').inputValue()).toBe('845');
    await page.getByRole('button', { name: 'Copy this range under another name' }).click();
    await page.getByLabel('Name of the range').fill('Quay Yard 2027');
    await page.getByLabel('Name of the range').press('Tab');
    await page.getByRole('button', { name: /^Save as version 1/ }).click();
    await page.getByRole('heading', { name: 'Quay Yard 2027 (invented), version 1' }).waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('stays with an old project until the newer version is taken, and the taking can be undone', async () => {
    const page = await openPage();
    await page.getByRole('button', { name: 'open the demo project' }).click();
    const offer = page.getByText('Version 3 is there: 1 piece changed.');
    await offer.waitFor();
    await page
      .locator('.range-line')
      .getByRole('button', { name: /Demo range \(invented\)\s*version 1/ })
      .waitFor();
    await page.getByRole('button', { name: 'Refit with version 3' }).click();
    await page.getByRole('button', { name: /Demo range \(invented\)\s*version 3/ }).waitFor();
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await offer.waitFor();

    // From the fit step to the range and back, the project as it was.
    await page.getByRole('button', { name: /Demo range \(invented\)\s*version 1/ }).click();
    await page.getByRole('heading', { name: 'Demo range (invented), version 1' }).waitFor();
    await back(page);
    await offer.waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('fits a run as a person wants it: compared, kept, held in place, refitted while something is dragged', async () => {
    const page = await openPage();
    await page.getByRole('button', { name: 'open the demo project' }).click();
    const project = projectPage(page, a1);
    const alternatives = page.locator('.alternatives tbody');
    await alternatives.nth(1).waitFor();
    expect(await accessFaults(page, '.rail')).toEqual([]);

    // Looking at an alternative draws it; leaving it draws the best again.
    const drawn = async () => (await page.locator('.elevation-drawing text').allTextContents()).join(' ');
    const best = await drawn();
    await alternatives.nth(1).hover();
    await expect.poll(drawn).not.toBe(best);
    await page.locator('.rail-head h1').hover();
    await expect.poll(drawn).toBe(best);

    // Kept; then a piece is held, so the kept fit is of an earlier state; let go, and it is kept as before.
    await alternatives.first().getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('button', { name: /^Release the kept fit/ }).waitFor();
    const hold = page.getByRole('button', { name: /^Hold 1\.04, .*: keep it here and refit around it$/ });
    await hold.click();
    const letGo = page.getByRole('button', { name: /^Let go of 1\.04/ });
    await letGo.waitFor();
    await page.getByText('Changed since: 1 more wanted or held in place.').waitFor();
    await letGo.click();
    await page.getByRole('button', { name: /^Release the kept fit/ }).waitFor();
    expect(await page.getByText('The kept fit is of an earlier state').count()).toBe(0);
    await project.saved();

    // The last point of the front bar, dragged: the fit follows while the button is down, and Escape takes it back.
    const last = demoPlanTruth.frontBar.frontLine.at(-1);
    if (!last) throw new Error('the front bar has points');
    const before = await page.locator('.fit-words').textContent();
    await project.point(last);
    await page.mouse.down();
    // 40 points along the straight: 705 mm less at 1:50, and every zone still on it.
    await project.point(paperPoint(last.x - 40, last.y));
    await expect.poll(() => page.locator('.fit-words').textContent()).not.toBe(before);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    await expect.poll(() => page.locator('.fit-words').textContent()).toBe(before);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
