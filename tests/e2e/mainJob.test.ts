import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { readBack } from '../issue/workbook/readBack.ts';
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

const openPage = async (url: string): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(url);
  return page;
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-e2e-'));
  writeFileSync(join(folder, 'ground floor.pdf'), await drawDemoPlan());
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('the main job in a browser', () => {
  it('goes from an empty archive to a fitted run that is kept, reopened after a crash, and taken away', async () => {
    const page = await openPage(host.url);
    await page.getByText('Nothing archived yet').waitFor();

    await page.getByLabel('New project').fill('Quay Street Tap');
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByLabel('Plan file').setInputFiles(join(folder, 'ground floor.pdf'));
    await page.getByRole('button', { name: 'Use page 1' }).click();

    const project = projectPage(page, a1);
    await project.waitForSheet();
    await page.getByText('What the sheet says').waitFor();

    // A dimension of the plan, picked at its ends and typed as the drawing has it.
    const [across, up] = demoPlanTruth.dimensions;
    await page.getByRole('button', { name: 'Pick a known dimension' }).click();
    await project.pick(across.from);
    await project.pick(across.to);
    await project.type(across.text);
    await expect.poll(() => project.answer('Scale').textContent()).toMatch(/^1:50 ±/);
    await project.openStep('Scale');
    await page.getByRole('button', { name: 'Pick another dimension' }).click();
    await project.pick(up.from);
    await project.pick(up.to);
    await project.type(`${Number(up.text) / 1000} m`);
    await project.saved();

    // The L of the front bar: three points of its front line, then any place on the working side.
    const { frontLine, depthMm } = demoPlanTruth.frontBar;
    await page.getByRole('button', { name: 'Trace', exact: true }).click();
    for (const place of frontLine) await project.pick(place);
    await project.confirm();
    await project.point(paperPoint(frontLine[1].x + 60, frontLine[1].y + 60));
    await project.type(String(depthMm));
    await expect.poll(() => project.answer('Runs').textContent()).toBe('1');
    await expect.poll(() => project.answer('Fit').textContent(), { timeout: 20_000 }).toMatch(/pieces/);
    const fitted = await project.answer('Fit').textContent();

    await project.openStep('Runs');
    const length = await page.locator('.lines .length').first().textContent();
    // 2 680 + 8 700 mm, as the drawing dimensions them; picked at a zoom of a whole A1 sheet.
    expect(Number(length?.replace(/[^\d±]/g, '').split('±')[0])).toBeGreaterThan(11_380 - 8);
    expect(Number(length?.replace(/[^\d±]/g, '').split('±')[0])).toBeLessThan(11_380 + 8);

    // Undo and redo, then keep the fit.
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => project.answer('Runs').textContent()).toBe('none yet');
    await page.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(() => project.answer('Runs').textContent()).toBe('1');
    await page.locator('.pick-name', { hasText: 'Run 1' }).click();
    await project.openStep('Fit');
    await page.getByRole('button', { name: 'Keep', exact: true }).first().click();
    await page.getByRole('button', { name: 'Release' }).waitFor();
    await project.saved();
    const address = new URL(page.url());

    // The host dies without a word; the project comes back as it was.
    await page.context().close();
    await host.kill();
    host = await startHostProcess(join(folder, 'archive'));
    const again = await openPage(host.url);
    await again.getByRole('button', { name: 'Quay Street Tap', exact: true }).click();
    const reopened = projectPage(again, a1);
    await reopened.waitForSheet();
    expect(new URL(again.url()).hash).toBe(address.hash);
    await expect.poll(() => reopened.answer('Scale').textContent()).toMatch(/^1:50 ±/);
    await expect.poll(() => reopened.answer('Fit').textContent(), { timeout: 20_000 }).toBe(fitted);
    await reopened.openStep('Fit');
    await again.getByRole('button', { name: 'Release' }).waitFor();

    await reopened.openStep('Take away');
    const [schedule] = await Promise.all([
      again.waitForEvent('download'),
      again.getByRole('button', { name: 'Schedule (CSV)' }).click(),
    ]);
    const csv = readFileSync(await schedule.path(), 'utf8');
    expect(csv.split('\r\n')[0]).toContain('Width (mm)');
    expect(csv).toMatch(/1\.01,Run 1,1,/);
    const [workbook] = await Promise.all([
      again.waitForEvent('download'),
      again.getByRole('button', { name: 'Workbook with quote (XLSX)' }).click(),
    ]);
    const sheets = (await readBack(readFileSync(await workbook.path()))).worksheets.map(({ name }) => name);
    expect(sheets).toEqual(expect.arrayContaining(['Pieces', 'Services', 'Site measure', 'Quote']));
    const [plan] = await Promise.all([
      again.waitForEvent('download', { timeout: 60_000 }),
      again.getByRole('button', { name: 'Plan with runs (PDF)' }).click(),
    ]);
    expect(
      readFileSync(await plan.path())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    expect(complaints).toEqual([]);
    await again.context().close();
  });
});
