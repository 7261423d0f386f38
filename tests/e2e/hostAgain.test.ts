import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-again-e2e-'));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

const keeping = (page: Page) => page.locator('.rail-keeping [role=status]').first();
const isSaved = (page: Page) => page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();

const openJob = async (page: Page, name: string): Promise<void> => {
  await page.getByLabel('New project').fill(name);
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.locator('.step-head', { hasText: 'Job' }).click();
};
const typeClient = async (page: Page, client: string): Promise<void> => {
  await page.getByLabel('Client').fill(client);
  await page.getByLabel('Client').press('Enter');
};

describe('a host that is killed and started again', () => {
  it('is found again by the window that was open, which sends what was not saved', async () => {
    const archiveDir = join(folder, 'killed');
    const first = await startHostProcess(archiveDir);
    onTestFinished(first.stop);
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    onTestFinished(() => context.close());
    const window = await context.newPage();
    await window.goto(first.url);
    await openJob(window, 'Lantern Hall');
    await typeClient(window, 'Salt Lane');
    await isSaved(window);

    await first.kill();
    await typeClient(window, 'Northgate');
    await window.getByText('1 step is not saved yet').waitFor();

    const second = await startHostProcess(archiveDir);
    onTestFinished(second.stop);
    expect(new URL(second.url).port).toBe(new URL(first.url).port);
    expect(new URL(second.url).searchParams.get('token')).not.toBe(
      new URL(first.url).searchParams.get('token'),
    );
    // The old window is not let in by its old cookie, and says what to do.
    await window.getByText('Open the address that Footrail printed').waitFor();
    expect(await keeping(window).textContent()).not.toBe('Saved');

    // The newly printed address, opened in the same browser, is all that it waits for.
    const opened = await context.newPage();
    await opened.goto(second.url);
    await isSaved(window);
    await expect.poll(() => window.getByRole('alert').count()).toBe(0);
    await expect
      .poll(async () => {
        await opened.reload();
        await opened.locator('.ledger tbody .ledger-word').first().waitFor();
        return opened.locator('.ledger tbody .ledger-word').allTextContents();
      })
      .toContain('Northgate');

    // A window that had nothing unsaved goes on as well.
    await typeClient(window, 'Umber');
    await isSaved(window);

    // Another browser is not let in by any of it.
    const stranger = await browser.newContext();
    onTestFinished(() => stranger.close());
    const page = await stranger.newPage();
    await page.goto(new URL(second.url).origin);
    expect(await page.textContent('body')).toContain('does not know this browser');
  });
});
