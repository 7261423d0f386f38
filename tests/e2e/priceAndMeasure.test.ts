import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
let host: HostProcess;
let folder: string;
let page: Page;

const openStep = async (word: string): Promise<void> => {
  const head = page.locator('.step-head', { hasText: word }).first();
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
};
const answerOf = (word: string) => page.locator('.step-head', { hasText: word }).locator('.step-answer');
const fieldOf = (label: string) => page.getByLabel(label, { exact: true });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-price-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(host.url);
  await page.getByText('open the demo project').click();
  await page.locator('.elevation svg').first().waitFor();
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('price and site measure in the rail', () => {
  it('a length measured on site takes the drawing’s place, the run is fitted anew, and it can be taken back', async () => {
    await openStep('Site measure');
    const field = fieldOf('On site, straight 1 of Back bar');
    const line = page.locator('.measure-lines > li', { has: field });
    await field.fill('6388');
    await field.press('Enter');
    await line.getByText('more than the drawing’s ± allows', { exact: false }).waitFor();
    // 12 mm short of 6 400, in which the pieces stood exactly: the last of them must give way.
    await openStep('Runs');
    const inList = page.locator('.lines > li', { has: page.getByRole('button', { name: 'Back bar' }) });
    await inList.getByText('6 388 mm').waitFor();
    await inList.getByText('left over', { exact: false }).waitFor();
    await openStep('Site measure');
    await field.fill('');
    await field.press('Enter');
    await line.getByText('Its pieces fill it exactly').waitFor();
  });

  it('the terms change the sum to the cent, and stand again after the page is opened anew', async () => {
    await openStep('Price');
    await page.getByText('Terms of the quote').click();
    const before = (await answerOf('Price').textContent()) ?? '';
    const minor = (text: string) => Number(text.replace(/[^\d]/g, ''));
    const goods = minor(before);
    for (const [label, typed] of [
      ['Discount on goods', '7.5'],
      ['Freight', '480.50'],
      ['Tax', '21'],
    ] as const) {
      await fieldOf(label).fill(typed);
      await fieldOf(label).press('Enter');
      await page.waitForTimeout(50);
    }
    // By hand in whole cents: discount once on the goods, tax once on the net sum, a half away from zero.
    const discount = Math.floor((goods * 750 + 5_000) / 10_000);
    const net = goods - discount + 48_050;
    const total = net + Math.floor((net * 2_100 + 5_000) / 10_000);
    await expect.poll(async () => minor((await answerOf('Price').textContent()) ?? '')).toBe(total);
    await fieldOf('Discount on goods').fill('101 %');
    await fieldOf('Discount on goods').press('Enter');
    await page.getByText('is no share from 0 to 100 %', { exact: false }).waitFor();
    await page.getByText('Saved', { exact: true }).waitFor();
    await page.reload();
    await page.locator('.elevation svg').first().waitFor();
    await expect.poll(async () => minor((await answerOf('Price').textContent()) ?? '')).toBe(total);
  });
});
