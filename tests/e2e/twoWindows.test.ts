import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { picture } from './picture.ts';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-windows-e2e-'));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

const isSaved = (page: Page) => page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
const openJob = (page: Page) => page.locator('.step-head', { hasText: 'Job' }).click();
const type = async (page: Page, label: string, text: string): Promise<void> => {
  await page.getByLabel(label, { exact: true }).fill(text);
  await page.getByLabel(label, { exact: true }).press('Enter');
};
const value = (page: Page, label: string) => page.getByLabel(label, { exact: true }).inputValue();

/** Two windows on one project: of one host, or each of a host of its own on the same archive. */
const twoWindows = async (name: string, hosts: 1 | 2): Promise<readonly [Page, Page]> => {
  const archiveDir = join(folder, name);
  const start = async (): Promise<HostProcess> => {
    const host = await startHostProcess(archiveDir);
    onTestFinished(host.stop);
    return host;
  };
  const first = await start();
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  onTestFinished(() => context.close());
  const one = await context.newPage();
  await one.goto(first.url);
  await one.getByLabel('New project').fill('Gable Yard');
  await one.getByRole('button', { name: 'Start', exact: true }).click();
  await openJob(one);
  await type(one, 'Client', 'Umber');
  await isSaved(one);
  const hash = new URL(one.url()).hash;
  const other = await context.newPage();
  if (hosts === 1) await other.goto(`${new URL(first.url).origin}/${hash}`);
  else await other.goto(`${(await start()).url}${hash}`);
  await openJob(other);
  await expect.poll(() => value(other, 'Client')).toBe('Umber');
  return [one, other];
};

describe('two windows on one project', () => {
  for (const hosts of [1, 2] as const) {
    const of = hosts === 1 ? 'one host' : 'two hosts on one archive';

    it(`of ${of} keep what goes together, and the second is told`, async () => {
      const [one, other] = await twoWindows(`together-${hosts}`, hosts);
      await type(one, 'Site', '3 Dock Road');
      await isSaved(one);
      await type(other, 'Job number', 'J77');
      await other.getByText('changed in another window').waitFor();
      await isSaved(other);
      expect([await value(other, 'Site'), await value(other, 'Job number')]).toEqual(['3 Dock Road', 'J77']);
    });

    it(`of ${of} that change the same: the second sees both and decides`, async () => {
      const [one, other] = await twoWindows(`same-${hosts}`, hosts);
      await type(one, 'Client', 'Northgate');
      await isSaved(one);
      await type(other, 'Client', 'Tollhouse');
      const clash = other.getByRole('alertdialog');
      await clash.getByText('Another window changed the client while you did').waitFor();
      expect(await clash.locator('.clash-sides section p').allTextContents()).toEqual([
        'Tollhouse',
        'Northgate',
      ]);
      await picture(other, `clash-${hosts}`);
      expect(await value(other, 'Client')).toBe('Tollhouse');
      await clash.getByRole('button', { name: 'The other window’s: show it' }).click();
      await expect.poll(() => value(other, 'Client')).toBe('Northgate');
      await clash.getByRole('button', { name: 'Keep yours' }).click();
      await isSaved(other);
      await expect.poll(() => clash.count()).toBe(0);
      expect(await value(other, 'Client')).toBe('Tollhouse');

      // The first window now is the second: it is told, and gives way.
      await type(one, 'Client', 'Ferrow');
      await one.getByRole('alertdialog').getByRole('button', { name: 'Keep the other’s' }).click();
      await isSaved(one);
      expect(await value(one, 'Client')).toBe('Tollhouse');
      await one.reload();
      await openJob(one);
      await expect.poll(() => value(one, 'Client')).toBe('Tollhouse');
    });
  }
});
