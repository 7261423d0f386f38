import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
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
let page: Page;
const complaints: string[] = [];

const openDemo = async (): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const opened = await context.newPage();
  opened.on('pageerror', (error) => complaints.push(error.message));
  opened.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await opened.goto(host.url);
  return opened;
};

const obstacleNames = () => page.locator('.way-name').allTextContents();
const openObstacle = async (name: string): Promise<void> => {
  const button = page.locator('.way-name', { hasText: name });
  if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click();
};
const retype = async (label: string, text: string): Promise<void> => {
  const field = page.locator('.way-form').getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
};
const stoppedCells = () => page.locator('.way-cell.is-stops');
const cellOf = (words: RegExp) => page.getByRole('button', { name: words });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-way-in-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  page = await openDemo();
  await page.getByText('open the demo project').click();
  await page.locator('[data-drawing=sharp]').waitFor();
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('the way in, in a browser', () => {
  it('stops the 2 400 top at the cellar turn, and draws it there', async () => {
    const project = projectPage(page, a1);
    await expect
      .poll(() => project.answer('Way in').textContent(), { timeout: 30_000 })
      .toBe('1 piece stopped');
    await project.openStep('Way in');
    await page.getByRole('region', { name: 'Pieces on the way in' }).waitFor();
    expect(await page.locator('.elevation-drawing').count()).toBe(0);
    expect(await stoppedCells().count()).toBe(1);
    await cellOf(/Module 2400.* does not pass Cellar turn/).hover();
    const drawing = page.getByRole('img', { name: /^Plan: Module 2400.* does not pass Cellar turn/ });
    await drawing.waitFor();
    // The widths on both sides of the turn, as the demo has them.
    expect(await drawing.textContent()).toMatch(/1\s420\smm/);
    expect(await drawing.textContent()).toMatch(/1\s270\smm/);
    await page.getByText('passes with frames off, assemble on site').waitFor();
    await page.getByText('This is guidance for ordering, not a lifting plan.').waitFor();
  });

  it('refits the runs with what passes, in one click, and shows the difference', async () => {
    const project = projectPage(page, a1);
    const price = page.locator('.narrow-door');
    await price.waitFor();
    const [, free, limited, more] = await price
      .locator('tr', { hasText: 'EUR' })
      .locator('th, td')
      .allTextContents();
    const amount = (text: string | undefined) => Number((text ?? '').replace(/[^\d.]/g, ''));
    // The back bar as 2 400 + 2 100 + 1 800 becomes 3 x 2 100: 3 x 1 480 - (1 620 + 1 480 + 1 265) of the demo range.
    expect(amount(limited) - amount(free)).toBeCloseTo(75, 9);
    expect(amount(more)).toBe(75);
    await page.getByRole('button', { name: /^Limit the fit to what passes: 2\s100\smm$/ }).click();
    await expect.poll(() => project.answer('Way in').textContent()).toBe('all 12 pass');
    await page.getByText('It follows the way in.').waitFor();
    expect(await stoppedCells().count()).toBe(0);
    expect(await page.locator('.way-table', { hasText: 'Module 2400' }).count()).toBe(0);
    await project.saved();
  });

  it('stays linked: a narrower turn refits the runs again, and undo brings them back', async () => {
    const project = projectPage(page, a1);
    await openObstacle('Cellar turn');
    await retype('Width after', '1100');
    await page.getByText(/limited to what passes: 1\s800\smm/).waitFor();
    await expect.poll(() => page.locator('.way-table', { hasText: 'Module 2100' }).count()).toBe(0);
    await expect.poll(() => project.answer('Way in').textContent()).toMatch(/^all \d+ pass$/);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByText(/limited to what passes: 2\s100\smm/).waitFor();
  });

  it('takes a width from the plan: two picks, and it is measured at the scale with its +/-', async () => {
    const project = projectPage(page, a1);
    const shown = demoPlanTruth.dimensions[4];
    await openObstacle('Cellar turn');
    await page.getByRole('button', { name: 'Pick on the plan Width after the turn' }).click();
    await expect
      .poll(() => project.prompt.textContent())
      .toMatch(/one side of the width after the turn of Cellar turn/);
    await project.board.press('Home');
    // Two places that the demo plan dimensions as 2 680 apart; picked at the zoom of a whole A1 sheet.
    await project.pick(shown.from);
    await project.pick(shown.to);
    const field = page.locator('.way-form').getByLabel('Width after', { exact: true });
    await expect
      .poll(async () => Number((await field.inputValue()).replace(/[^\d.]/g, '')))
      .toBeGreaterThan(2_670);
    expect(Number((await field.inputValue()).replace(/[^\d.]/g, ''))).toBeLessThan(2_690);
    await page.getByText(/Every module of the range passes: the limit holds nothing back/).waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByText(/limited to what passes: 2\s100\smm/).waitFor();
    await openObstacle('Cellar turn');
    await page.locator('.way-name', { hasText: 'Cellar turn' }).click();
  });

  it('puts obstacles in another order by keyboard and by dragging', async () => {
    const before = await obstacleNames();
    expect(before).toEqual(['1 Yard door D08', '2 Cellar turn', '3 Store door D06', '4 Kitchen door D04']);
    await page.locator('.way-name', { hasText: 'Cellar turn' }).press('Alt+ArrowDown');
    await expect
      .poll(obstacleNames)
      .toEqual(['1 Yard door D08', '2 Store door D06', '3 Cellar turn', '4 Kitchen door D04']);
    await page
      .locator('.way-name', { hasText: 'Cellar turn' })
      .dragTo(page.locator('.way-name', { hasText: 'Store door' }));
    await expect.poll(obstacleNames).toEqual(before);
  });

  it('adds a lift from the short list with a usual size, marked to be confirmed on site', async () => {
    await page.getByLabel('Add to the way').selectOption({ label: 'Lift' });
    await page
      .locator('.way-list > li', { hasText: '5 Lift' })
      .getByText(/confirm on site/)
      .first()
      .waitFor();
    await page.getByLabel('Start from a usual lift').selectOption({ index: 4 });
    const field = page.locator('.way-form').getByLabel('Car width', { exact: true });
    // EN 81-70 type 4: 1 600 x 1 400.
    await expect.poll(async () => (await field.inputValue()).replace(/\D/g, '')).toBe('1600');
    await page.locator('.way-form').getByRole('button', { name: 'Remove' }).click();
    await expect.poll(async () => (await obstacleNames()).length).toBe(4);
  });

  it('compares ways in, loads the vehicle, and gives the elevation back when the step closes', async () => {
    const project = projectPage(page, a1);
    await page.getByRole('button', { name: 'Ways in', exact: true }).click();
    const first = page.locator('.way-table tbody tr').first();
    expect(await first.textContent()).toMatch(/Street door, by permit/);
    await page.getByRole('button', { name: /^Take this one Street door/ }).click();
    await page.getByText(/Every module of the range passes: the limit holds nothing back/).waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Loads', exact: true }).click();
    const trips = page.locator('.way-loads .way-table tbody tr');
    await trips.first().waitFor();
    const counts = await trips.locator('td:nth-child(2)').allTextContents();
    expect(counts.reduce((sum, count) => sum + Number(count), 0)).toBe(12);
    // The beer station hangs between standing neighbours: it comes off after them.
    expect((await trips.last().textContent()) ?? '').toMatch(/1\.03/);
    await project.openStep('Fit');
    await page.locator('.elevation-drawing').waitFor();
    expect(complaints).toEqual([]);
  });
});
