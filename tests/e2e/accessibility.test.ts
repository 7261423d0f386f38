import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
let host: HostProcess;
let folder: string;
let page: Page;

/** What breaks WCAG 2.2 AA on the page, as axe-core, a general-purpose checker, has it. */
const violations = async (): Promise<readonly string[]> => {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run: (options: object) => Promise<AxeResult> } }).axe.run;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
    const { violations: found } = await run({ runOnly: { type: 'tag', values: tags } });
    return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`);
  });
};

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string }[];
  }[];
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-axe-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(host.url);
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('every screen against WCAG 2.2 AA', () => {
  it('the empty archive', async () => {
    await page.getByText('Nothing archived yet').waitFor();
    expect(await violations()).toEqual([]);
  });

  it('the project with each step open, in light and in dark', async () => {
    await page.getByText('open the demo project').click();
    await page.locator('[data-drawing=sharp]').waitFor();
    await page.locator('.elevation svg').first().waitFor();
    for (const theme of ['Dark', 'Light']) {
      for (const step of ['Plan', 'Scale', 'Runs', 'Fit', 'Way in', 'Site measure', 'Price', 'Take away']) {
        const head = page.locator('.step-head', { hasText: step }).first();
        if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
        expect(await violations(), `${step}, before ${theme}`).toEqual([]);
        if (step !== 'Runs') continue;
        // A bay as it is described, then the same as a low section, with all that is folded away open.
        await page.getByRole('button', { name: /^B Glasswasher/ }).click();
        for (const kind of ['bay', 'low', 'bay']) {
          await page.getByLabel(/^Is/).selectOption(kind);
          await page.locator('.run-panel details').evaluateAll((all) => {
            for (const one of all) one.setAttribute('open', '');
          });
          expect(await violations(), `a ${kind}, before ${theme}`).toEqual([]);
        }
      }
      await page.getByRole('button', { name: theme, exact: true }).click();
    }
  });

  it('the archive with a project in it', async () => {
    await page.getByRole('button', { name: 'Archive' }).click();
    await page.locator('.ledger').waitFor();
    expect(await violations()).toEqual([]);
  });
});
