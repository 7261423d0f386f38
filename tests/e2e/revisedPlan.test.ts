import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { twoRevisions } from '../fixtures/revisedPlan/twoRevisions.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
let host: HostProcess;
let folder: string;
let page: Page;

const planFile = (name: string, bytes: Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};
const saved = () => page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
const openStep = async (word: string) => {
  const head = page.locator('.step-head', { hasText: word }).first();
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
};

/** Changes the one project of the archive as another window would: `sheet` stands for its first sheet. */
const given = async (commands: (sheet: string) => readonly unknown[]): Promise<void> => {
  await saved();
  const call = (method: string, input: object) =>
    page.evaluate(
      async ([to, body]) => {
        const headers = { 'content-type': 'application/json' };
        const response = await fetch(`/api/${to}`, { method: 'POST', headers, body: JSON.stringify(body) });
        return response.json() as Promise<unknown>;
      },
      [method, input] as const,
    );
  const { projects } = (await call('list-projects', {})) as { projects: { projectId: string }[] };
  const { projectId } = projects[0]!;
  const { revision, document } = (await call('open-project', { projectId })) as {
    revision: number;
    document: { sheetIds: string[] };
  };
  const command = { type: 'together', label: 'Given', commands: commands(document.sheetIds[0]!) };
  await call('apply-command', { projectId, revision, command });
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-revision-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(host.url);
  await page.getByLabel('New project').fill('Ferry House');
  await page.getByRole('button', { name: 'Start' }).click();
  await page.getByLabel('Plan file').setInputFiles(planFile('ground A.pdf', await twoRevisions.a()));
  await page.getByRole('button', { name: 'Use page 1' }).click();
  await page.locator('[data-drawing=sharp]').waitFor();
  await given((sheetId) => [
    {
      type: 'accept-scale',
      sheetId,
      scale: { ratio: 50, relativeUncertainty: 0.001, because: 'a test' },
    },
    {
      type: 'add-run',
      run: {
        ...runDefaultsOf(demoRange),
        id: 'run-a',
        sheetId,
        name: 'Front bar',
        frontLine: [
          { id: 'vertex-a1', at: twoRevisions.onA(1000, 1200), treatment: null },
          { id: 'vertex-a2', at: twoRevisions.onA(7000, 1200), treatment: null },
        ],
        pickUncertaintyPt: 0.2,
      },
    },
  ]);
  await page.reload();
  await page.locator('.elevation svg').first().waitFor();
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('a later revision of the plan', () => {
  it('is laid on its sheet, the run is carried over, and what it changes is said run by run', async () => {
    await page.getByLabel('Plan file').setInputFiles(planFile('ground B.pdf', await twoRevisions.b()));
    await page.getByLabel('This plan is').selectOption({ label: 'a later revision of ground A' });
    await page.getByRole('button', { name: 'Use page 1' }).click();
    const dialog = page.getByRole('dialog', { name: 'A later revision' });
    await dialog.getByText('It lies on the old sheet at 50.0 % of its size', { exact: false }).waitFor();
    await dialog.getByRole('button', { name: 'Take it in as revision B' }).click();
    await dialog.waitFor({ state: 'hidden' });
    const panel = page.getByRole('region', { name: 'Revision' });
    await panel.getByText('Straight 1', { exact: true }).waitFor();
    expect(await panel.locator('dl').allTextContents()).toEqual(
      expect.arrayContaining([expect.stringMatching(/6\s000\smm.*6\s250\smm/)]),
    );
    await openStep('Runs');
    expect(await page.locator('.lines > li', { hasText: 'Front bar' }).allTextContents()).toEqual(
      expect.arrayContaining([expect.stringMatching(/6\s250\smm/)]),
    );
    await openStep('Plan');
    await page.getByText('superseded: neither priced nor issued', { exact: false }).waitFor();
  });

  it('shows what moved over the new sheet, and the old sheet while it is held; nothing breaks WCAG 2.2 AA', async () => {
    const panel = page.getByRole('region', { name: 'Revision' });
    const hold = panel.getByRole('button', { name: 'Hold to see the old sheet' });
    await hold.waitFor();
    await panel.getByText('A: gone', { exact: false }).waitFor();
    const inked = () =>
      page.evaluate(() => {
        const canvases = [...document.querySelectorAll<HTMLCanvasElement>('.sheet-view canvas')];
        return canvases.map((canvas) => canvas.toDataURL().length).join(' ');
      });
    await hold.focus();
    const compared = await inked();
    await page.keyboard.down('Enter');
    await expect.poll(inked).not.toBe(compared);
    await page.keyboard.up('Enter');
    await page.evaluate(axe.source);
    const found = await page.evaluate(async () => {
      const run = (
        globalThis as unknown as {
          axe: { run: (options: object) => Promise<{ violations: { id: string }[] }> };
        }
      ).axe.run;
      const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
      return (await run({ runOnly: { type: 'tag', values: tags } })).violations.map(({ id }) => id);
    });
    expect(found).toEqual([]);
  });

  it('asks for two places picked on both where a scan has no lines to go by', async () => {
    const scan = await PDFDocument.create();
    scan.addPage([1684, 1191]);
    await page.getByLabel('Plan file').setInputFiles(planFile('scan C.pdf', await scan.save()));
    await page.getByLabel('This plan is').selectOption({ label: 'a later revision of ground A, revision B' });
    expect(await page.getByRole('textbox', { name: 'Revision' }).inputValue()).toBe('C');
    await page.getByRole('button', { name: 'Use page 1' }).click();
    const dialog = page.getByRole('dialog', { name: 'A later revision' });
    await dialog.getByText('Pick the same two places on both sheets', { exact: false }).waitFor();
    const lay = dialog.getByRole('button', { name: 'Lay it by these places' });
    expect(await lay.isDisabled()).toBe(true);
    const boards = dialog.locator('.sheet-view');
    await expect.poll(() => boards.count()).toBe(2);
    for (const [x, y] of [
      [0.25, 0.3],
      [0.75, 0.7],
    ] as const)
      for (const index of [0, 1]) {
        const box = (await boards.nth(index).boundingBox())!;
        await page.mouse.move(box.x + box.width * x, box.y + box.height * y, { steps: 2 });
        await page.mouse.down();
        await page.mouse.up();
      }
    await lay.click();
    await dialog.getByText('By 2 places picked on both sheets.', { exact: false }).waitFor();
    await dialog.getByRole('button', { name: 'Leave it' }).click();
    await dialog.waitFor({ state: 'hidden' });
  });
});
