import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { paperPointAt } from '../../src/measure/runPosition.ts';
import { countedHand } from './countedHand.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { projectPage } from './projectPage.ts';

/** The demo sheet: A1 landscape (ISO 216), 841 x 594 mm. */
const a1 = { viewBox: [0, 0, (841 * 72) / 25.4, (594 * 72) / 25.4], rotationDeg: 0, userUnit: 1 } as const;

const { frontBar, backBar, dimensions, ratio } = demoPlanTruth;
const exactly = { ratio, relativeUncertainty: 0, userUnit: 1 };
const onBar = (straight: number, alongMm: number, backMm = 0): PaperPoint =>
  paperPointAt({ ...frontBar, frontLine: [...frontBar.frontLine] }, straight, alongMm, backMm, exactly);
const besides = (point: PaperPoint, x: number, y: number) => paperPoint(point.x + x, point.y + y);

let browser: Browser;
let host: HostProcess;
let folder: string;
let context: BrowserContext;
let page: Page;
const complaints: string[] = [];
let projects = 0;

/** A project with the demo plan on the board and its scale picked: where an estimator starts to trace. */
const readyToTrace = async () => {
  page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(new URL('/', host.url).href);
  projects += 1;
  await page.getByLabel('New project').fill(`Quay Street ${projects}`);
  await page.getByRole('button', { name: 'Start' }).click();
  await page.getByLabel('Plan file').setInputFiles(join(folder, 'ground floor.pdf'));
  await page.getByRole('button', { name: 'Use page 1' }).click();
  const project = projectPage(page, a1);
  await project.waitForSheet();
  await page.getByText('What the sheet says').waitFor();
  const [across, up] = dimensions;
  for (const { from, to, text } of [across, up]) {
    await project.openStep('Scale');
    await page.getByRole('button', { name: /^Pick (a known|another) dimension$/ }).click();
    await project.pick(from);
    await project.pick(to);
    await project.type(text);
  }
  await expect.poll(() => project.answer('Scale').textContent()).toMatch(/^1:50 ±/);
  await project.openStep('Runs');
  return { project, hand: countedHand(page, a1) };
};

/** The newest state of the document, as the archive has it. */
const lengthsShown = async (): Promise<readonly number[]> =>
  (await page.locator('.lines .length').allTextContents()).map((text) =>
    Number(text.split('±')[0]?.replace(/[^\d]/g, '')),
  );

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-tracing-'));
  writeFileSync(join(folder, 'ground floor.pdf'), await drawDemoPlan());
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  // The address is good for one visit; what it leaves behind lets this browser in again.
  const first = await context.newPage();
  await first.goto(host.url);
  await first.close();
});

afterEach(async () => {
  await page?.close();
  expect(complaints).toEqual([]);
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('tracing in a browser', () => {
  it('traces the L-bar with its back bar, flap and column in under 40 input events', async () => {
    const { project, hand } = await readyToTrace();
    const { frontLine } = frontBar;
    const [blocked] = frontBar.blockedZones;
    const [flap] = frontBar.openings;

    await hand.press('Trace');
    for (const place of frontLine) await hand.pick(besides(place, 1.5, -1.2));
    await hand.key('Enter');
    await hand.pick(onBar(1, 7500, frontBar.depthMm));

    await hand.press('Trace');
    for (const place of backBar.frontLine) await hand.pick(besides(place, -1, -1.5));
    await hand.key('Enter');
    await hand.pick(paperPoint(backBar.frontLine[0].x + 100, backBar.frontLine[0].y + 20));

    await hand.press('Mark an opening');
    await hand.pick(onBar(1, flap.fromMm));
    await hand.pick(onBar(1, flap.toMm));
    await hand.press('Mark a blocked zone');
    await hand.pick(onBar(1, blocked.fromMm, 500));
    await hand.pick(onBar(1, blocked.toMm, 500));

    process.stdout.write(`by hand: ${hand.events()} input events\n`);
    expect(hand.events()).toBeLessThan(40);
    await expect.poll(() => project.answer('Runs').textContent()).toBe('2');
    await expect.poll(lengthsShown).toHaveLength(2);
    const [front, back] = await lengthsShown();
    expect(Math.abs(front! - 11_380)).toBeLessThan(8);
    expect(Math.abs(back! - 6_400)).toBeLessThan(8);
    await project.saved();
  });

  it('does the same by following lines in under 15', async () => {
    const { project, hand } = await readyToTrace();
    await hand.press('Trace');
    await hand.moveTo(onBar(1, 1500));
    await hand.key('f');
    await page.locator('.entry-prompt', { hasText: /^Found: 2 straights; 700\smm deep/ }).waitFor();
    await hand.key('Enter');
    await hand.press('Trace');
    await hand.moveTo(besides(backBar.frontLine[0], 70, 0));
    await hand.key('f');
    await page.locator('.entry-prompt', { hasText: /^Found: 1 straight; 600\smm deep/ }).waitFor();
    await hand.key('Enter');

    process.stdout.write(`by following lines: ${hand.events()} input events\n`);
    expect(hand.events()).toBeLessThan(15);
    await expect.poll(() => project.answer('Runs').textContent()).toBe('2');
    await expect.poll(lengthsShown).toHaveLength(2);
    const [front, back] = await lengthsShown();
    expect(Math.abs(front! - 11_380)).toBeLessThan(8);
    expect(Math.abs(back! - 6_400)).toBeLessThan(8);

    // One run is one step back, with its flap and its column.
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => project.answer('Runs').textContent()).toBe('none yet');
    await project.saved();
  });

  it('offers what it found and takes nothing where the answer is no', async () => {
    const { project, hand } = await readyToTrace();
    await hand.press('Trace');
    await hand.moveTo(onBar(1, 1500));
    await hand.key('f');
    await page.getByRole('button', { name: /^No/ }).click();
    await page.locator('.entry-prompt', { hasText: /where the front line/ }).waitFor();
    await expect.poll(() => project.answer('Runs').textContent()).toBe('none yet');
  });

  it('traces and edits with the keyboard alone', async () => {
    const { project, hand } = await readyToTrace();
    await page.getByRole('button', { name: 'Trace', exact: true }).focus();
    await hand.key('Enter');
    await page.locator('.sheet-view').focus();
    // The pointer starts in the middle of the board, or where it was last.
    await hand.key('ArrowLeft');
    await hand.key('Space');
    await hand.type('3600 at 0');
    await hand.key('Enter');
    await page.locator('.sheet-view').focus();
    await hand.key('Enter');
    await page.getByRole('button', { name: 'Back on the left' }).focus();
    await hand.key('Enter');
    await expect.poll(() => project.answer('Runs').textContent()).toBe('1');
    await expect.poll(lengthsShown).toEqual([3600]);

    // The second point of the run, 25 mm to the right and back: one undo step each, however long the key is held.
    await page.locator('.sheet-view').focus();
    for (let step = 0; step < 3; step += 1) await hand.key('PageDown');
    await page.keyboard.down('Shift');
    await page.keyboard.down('ArrowRight');
    await page.keyboard.down('ArrowRight');
    await page.keyboard.up('ArrowRight');
    await page.keyboard.up('Shift');
    await expect.poll(lengthsShown).toEqual([3620]);
    await page.keyboard.press('Control+z');
    await expect.poll(lengthsShown).toEqual([3600]);
    // The straight itself takes a typed length.
    await page.locator('.sheet-view').focus();
    await hand.key('PageUp');
    await hand.type('4200');
    await hand.key('Enter');
    await expect.poll(lengthsShown).toEqual([4200]);
  });

  it('drags a point as one step, and shows the run as it would be meanwhile', async () => {
    const { hand } = await readyToTrace();
    await hand.press('Trace');
    for (const place of frontBar.frontLine) await hand.pick(besides(place, 1.5, -1.2));
    await hand.key('Enter');
    await hand.pick(onBar(1, 4500, 300));
    await expect.poll(lengthsShown).toHaveLength(1);
    const [before] = await lengthsShown();
    const end = frontBar.frontLine[2];
    await hand.drag(end, besides(end, 60, 0), async () => {
      await page.locator('.entry-prompt', { hasText: /Let go/ }).waitFor();
      expect(await lengthsShown()).toEqual([before]);
    });
    // 60 points are 60 x 25.4 / 72 x 50 = 1058 mm in the room; what is drawn within reach may have caught the drop.
    await expect.poll(async () => (await lengthsShown())[0]! - before!).toBeGreaterThan(800);
    expect((await lengthsShown())[0]! - before!).toBeLessThan(1300);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(lengthsShown).toEqual([before]);
  });
});
