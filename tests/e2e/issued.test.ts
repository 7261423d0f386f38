import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
let host: HostProcess;
let folder: string;
let page: Page;
const complaints: string[] = [];

const open = async (): Promise<void> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  page = await context.newPage();
  page.setDefaultTimeout(20_000);
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(host.url);
};

/** What breaks WCAG 2.2 AA on the page, as axe-core, a general-purpose checker, has it. */
const violations = async (): Promise<readonly string[]> => {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    interface Found {
      readonly violations: readonly { readonly id: string; readonly nodes: readonly { html: string }[] }[];
    }
    const { run } = (globalThis as unknown as { axe: { run: (options: object) => Promise<Found> } }).axe;
    const values = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
    const { violations: found } = await run({ runOnly: { type: 'tag', values } });
    return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`);
  });
};

const goTo = async (place: string): Promise<void> => {
  await page.evaluate((hash) => {
    window.location.hash = hash;
    window.location.reload();
  }, place);
};

const openIssued = async (): Promise<void> => {
  const head = page.locator('.step-head', { hasText: 'Take away' });
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
  await page.getByRole('button', { name: 'Preview and issue' }).click();
  await page.getByRole('heading', { name: 'Issued', exact: true }).waitFor();
};

const savedAgain = async (number: number): Promise<Uint8Array> => {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: `Save again issue ${number}` }).click(),
  ]);
  return readFileSync(await download.path());
};

const shot = async (name: string): Promise<void> => {
  const into = process.env['FOOTRAIL_SHOTS'];
  if (into) await page.screenshot({ path: join(into, `${name}.png`) });
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-issued-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  await open();
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('issuing, in a browser', { timeout: 120_000 }, () => {
  it('says what is missing before anything can go out, and goes there', async () => {
    await page.getByText('Nothing archived yet').waitFor();
    await page.evaluate(async () => {
      await fetch('/api/create-project', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ name: 'Not begun' }),
      });
    });
    await page.reload();
    await page.getByText('Not begun').first().click();
    await openIssued();
    await page.getByText('There is no plan yet').waitFor();
    await shot('issued-missing');
    await page.locator('.issued-empty').getByRole('button').click();
    await page.locator('.step-head[aria-expanded=true]', { hasText: 'Plan' }).waitFor();
    await page.getByRole('button', { name: 'Archive' }).click();
  });

  it('shows the very pages that go out, and issues them', async () => {
    await goTo('project=demo');
    await page.locator('[data-drawing=sharp]').waitFor();
    await openIssued();
    await page.getByRole('combobox', { name: 'For' }).selectOption('tender');
    await page.getByLabel('Issued by').fill('Mara Okafor');
    await page.getByLabel('Issued by').press('Enter');
    await shot('issued-before');
    // Given up on the way, nothing is there; drawn again, all of it is.
    await page.getByRole('button', { name: 'Draw the preview' }).click();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByRole('button', { name: 'Draw the preview' }).click();
    await page.locator('.large-page-sheet[data-drawn="1"]').waitFor({ timeout: 60_000 });
    expect(await page.getByRole('radiogroup', { name: 'Pages' }).getByRole('radio').count()).toBeGreaterThan(
      1,
    );
    await shot('issued-preview');
    expect(await violations()).toEqual([]);

    // By keys alone: the pages, then the page after this one.
    await page.getByRole('radiogroup', { name: 'Pages' }).getByRole('radio').first().focus();
    await page.keyboard.press('ArrowDown');
    await page.locator('.large-page-sheet[data-drawn="2"]').waitFor();
    await page.keyboard.press('Tab');
    await page.getByRole('radio', { name: /Pieces/ }).click();
    await page.locator('.csv-delivery').waitFor();
    await shot('issued-table');

    await page.getByRole('button', { name: 'Issue 1', exact: true }).click();
    await page.getByRole('heading', { name: /^Issue 1 .*for tender, by Mara Okafor/ }).waitFor();
    await page.locator('.large-page-sheet[data-drawn="1"]').waitFor();
    await shot('issued-done');
    expect(await violations()).toEqual([]);
  });

  it('gives the same bytes again after the host was killed', async () => {
    const zip = await savedAgain(1);
    const address = page.url().split('#')[1];
    await page.context().close();
    await host.kill();
    host = await startHostProcess(join(folder, 'archive'));
    await open();
    await goTo(address ?? '');
    await page.locator('[data-drawing=sharp]').waitFor();
    expect(await page.locator('.step-head', { hasText: 'Take away' }).textContent()).toContain('issue 1');
    await page.locator('.rail').getByText('issued', { exact: false }).first().waitFor();
    await openIssued();
    const again = await savedAgain(1);
    expect(Buffer.compare(zip, again)).toBe(0);
    const inside = unzipSync(again);
    const [sumsPath] = Object.keys(inside).filter((path) => path.endsWith('/SHA256SUMS'));
    const sums = new TextDecoder()
      .decode(inside[sumsPath ?? ''])
      .trimEnd()
      .split('\n');
    expect(sums.length).toBeGreaterThan(6);
    for (const line of sums) {
      const [sum, name] = line.split('  ');
      const bytes = inside[`${sumsPath?.split('/')[0]}/${name}`] ?? new Uint8Array();
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(sum);
    }
  });

  it('lists what changed since, marks an outdated preview, and issues the next', async () => {
    await page.getByText('Nothing that is measured, fitted, checked or priced has changed.').waitFor();
    await page.getByRole('button', { name: 'Draw the preview' }).click();
    await page.locator('.large-page-sheet[data-drawn="1"]').waitFor({ timeout: 60_000 });
    await page.getByRole('combobox', { name: 'For' }).selectOption('construction');
    await page.getByText('This preview no longer shows what would go out.').waitFor();
    expect(await page.getByRole('button', { name: 'Issue 2', exact: true }).isDisabled()).toBe(true);
    await page.locator('.issued-head .word-button').first().click();
    await page.locator('.step-head', { hasText: 'Runs' }).click();
    const name = page.locator('.rail').getByLabel('Name').first();
    await name.fill('Long bar');
    await name.press('Enter');
    await page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
    await openIssued();
    await page.getByRole('row', { name: /Long bar.*Run has another name/ }).waitFor();
    await page.locator('.issued-head').getByRole('button', { name: 'Dark' }).click();
    await page.getByRole('button', { name: 'Draw the preview' }).click();
    await page.locator('.large-page-sheet[data-drawn="1"]').waitFor({ timeout: 60_000 });
    await shot('issued-changes-dark');
    expect(await violations()).toEqual([]);
    await page.getByRole('button', { name: 'Issue 2', exact: true }).click();
    await page.getByRole('heading', { name: /^Issue 2 .*for construction/ }).waitFor();
    await page.getByRole('row', { name: /Long bar.*Run has another name/ }).waitFor();
    await page.locator('.large-page-sheet[data-drawn="1"]').waitFor();
    await page.getByRole('button', { name: 'Draw it again and compare' }).click();
    await page.getByText('every file comes out the same, byte for byte').waitFor({ timeout: 60_000 });
    await shot('issued-second-dark');
    expect(await violations()).toEqual([]);
    await page.getByRole('combobox', { name: 'Compare with' }).selectOption('the project as it is now');
    await page.getByText('Nothing that is measured, fitted, checked or priced.').waitFor();
    expect(complaints).toEqual([]);
  });
});
