import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

/** Plans of others, tried where they are at hand; none is part of this repository. */
const folder = fileURLToPath(new URL('../../../shared/plans/', import.meta.url));
/** Ratios measured from drawn lines against dimension text by those who collected the plans; null: not given as text. */
const plans: readonly (readonly [file: string, ratio: RegExp | null])[] = [
  ['autocad-a1-cm.pdf', /^1:50 /],
  ['counter-run-a2-cm.pdf', /^1:20 /],
  ['archicad-a4.pdf', /^1:79\.9 /],
  ['feet-letter.pdf', /^1:8[12]/],
  ['outlines-a1-rot270.pdf', null],
  ['solvespace-strokes.pdf', null],
];
const isAtHand = existsSync(join(folder, 'archicad-a4.pdf'));
if (!isAtHand) process.stdout.write('samplePlans: ../shared/plans is not here, skipped\n');

let browser: Browser;
let host: HostProcess;
let archive: string;
let page: Page;

beforeAll(async () => {
  if (!isAtHand) return;
  archive = mkdtempSync(join(tmpdir(), 'footrail-samples-'));
  browser = await openBrowser();
  host = await startHostProcess(archive);
  page = await (
    await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true })
  ).newPage();
  await page.goto(host.url);
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  if (archive) rmSync(archive, { recursive: true, force: true });
});

const step = (word: string) => page.locator('.step-head', { hasText: new RegExp(`^${word}`) });
const answer = (word: string) => step(word).locator('.step-answer').textContent();
const openStep = async (word: string) => {
  if ((await step(word).getAttribute('aria-expanded')) !== 'true') await step(word).click();
};

/** Picks a place given as shares of the board's width and height. */
const pick = async (across: number, down: number) => {
  const box = await page.locator('.sheet-view').boundingBox();
  if (!box) throw new Error('no sheet is on the board');
  await page.mouse.move(box.x + box.width * across, box.y + box.height * down, { steps: 2 });
  await page.mouse.down();
  await page.mouse.up();
};

describe.skipIf(!isAtHand)('the main job on plans of others', () => {
  it.each(plans)('%s: scale, trace, fit, keep, reopen, take away', async (file, ratio) => {
    await page.getByLabel('New project').fill(file);
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByLabel('Plan file').setInputFiles(join(folder, file));
    await page.getByRole('button', { name: 'Use page 1' }).click({ timeout: 60_000 });
    await page.locator('[data-drawing=sharp]').waitFor({ timeout: 60_000 });
    await openStep('Scale');
    if (ratio) {
      await page.getByRole('button', { name: /^Work at 1:/ }).click({ timeout: 60_000 });
      await expect.poll(() => answer('Scale')).toMatch(ratio);
    } else {
      // No evidence that can be trusted: a known dimension, picked and typed, decides.
      await page.getByText('Pick a dimension whose length you know.').waitFor({ timeout: 60_000 });
      await page.getByRole('button', { name: 'Pick a known dimension' }).click();
      await pick(0.4, 0.5);
      await pick(0.6, 0.5);
      await page.locator('.entry-field input').fill('10 m');
      await page.locator('.entry-field input').press('Enter');
      await expect.poll(() => answer('Scale')).toMatch(/^1:\d/);
    }

    await page.getByRole('button', { name: 'Trace', exact: true }).click();
    await pick(0.44, 0.42);
    await pick(0.44, 0.58);
    await pick(0.56, 0.58);
    await page.locator('.sheet-view').press('Enter');
    await pick(0.5, 0.5);
    await expect.poll(() => answer('Runs')).toBe('1');
    await expect.poll(() => answer('Fit'), { timeout: 30_000 }).toMatch(/piece/);
    await page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
    const before = [await answer('Scale'), await answer('Fit')];

    await page.reload();
    await page.locator('[data-drawing=sharp]').waitFor({ timeout: 60_000 });
    await expect
      .poll(async () => [await answer('Scale'), await answer('Fit')], { timeout: 30_000 })
      .toEqual(before);

    await openStep('Take away');
    const [plan] = await Promise.all([
      page.waitForEvent('download', { timeout: 60_000 }),
      page.getByRole('button', { name: 'Plan with runs (PDF)' }).click(),
    ]);
    expect(
      readFileSync(await plan.path())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    await page.getByRole('button', { name: 'Archive' }).click();
  });
});
