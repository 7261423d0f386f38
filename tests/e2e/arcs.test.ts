import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { picture } from './picture.ts';
import { projectPage } from './projectPage.ts';

/** A2 landscape (ISO 216), 594 x 420 mm, drawn at 1:50. */
const perMm = 72 / 25.4;
const a2 = { viewBox: [0, 0, 594 * perMm, 420 * perMm], rotationDeg: 0, userUnit: 1 } as const;
const room = (xMm: number, yMm: number): PaperPoint => paperPoint((xMm / 50) * perMm, (yMm / 50) * perMm);

const radiusMm = 3200;
/** A straight of 4 500, a quarter circle of radius 3 200 on from it, a straight of 3 600; 620 deep. */
const front = {
  start: room(6000, 5000),
  bend: room(10_500, 5000),
  bent: room(10_500 + radiusMm, 5000 + radiusMm),
  end: room(10_500 + radiusMm, 5000 + radiusMm + 3600),
};
const dimension = { from: room(6000, 2500), to: room(16_000, 2500) };

const drawPlan = async (): Promise<Uint8Array> => {
  const pdf = await PDFDocument.create();
  const page = pdf.addPage([594 * perMm, 420 * perMm]);
  const font = await pdf.embedFont(StandardFonts.Helvetica);
  const line = (from: PaperPoint, to: PaperPoint) => page.drawLine({ start: from, end: to, thickness: 0.7 });
  const counter = (insetMm: number) => {
    const radius = radiusMm - insetMm;
    line(room(6000, 5000 + insetMm), room(10_500, 5000 + insetMm));
    // A quarter circle as one Bezier curve, 0.02 % off at most (kappa 0.5523, from memory).
    const handle = radius * 0.5523;
    const at = (x: number, y: number) => {
      const { x: px, y: py } = room(10_500 + x, 5000 + radiusMm - y);
      return `${px},${-py}`;
    };
    page.drawSvgPath(`M ${at(0, radius)} C ${at(handle, radius)} ${at(radius, handle)} ${at(radius, 0)}`, {
      x: 0,
      y: 0,
      borderWidth: 0.7,
    });
    line(room(10_500 + radius, 5000 + radiusMm), room(10_500 + radius, 5000 + radiusMm + 3600));
  };
  counter(0);
  counter(620);
  line(room(6000, 4000), room(6000, 12_000));
  line(dimension.from, dimension.to);
  for (const end of [dimension.from, dimension.to])
    line(paperPoint(end.x, end.y - 6), paperPoint(end.x, end.y + 6));
  page.drawText('10000', { x: room(10_700, 0).x, y: dimension.from.y + 4, size: 9, font });
  return pdf.save();
};

let browser: Browser;
let host: HostProcess;
let folder: string;
let page: Page;
const complaints: string[] = [];
const shot = (name: string): Promise<void> => picture(page, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-arcs-'));
  writeFileSync(join(folder, 'curved bar.pdf'), await drawPlan());
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const taken = async (button: string): Promise<Buffer> => {
  const [download] = await Promise.all([
    page.waitForEvent('download', { timeout: 60_000 }),
    page.getByRole('button', { name: button, exact: true }).click(),
  ]);
  const bytes = readFileSync(await download.path());
  const into = process.env['FOOTRAIL_PICTURES'];
  if (into) writeFileSync(join(into, download.suggestedFilename()), bytes);
  return bytes;
};

describe('a bar with a round corner in a browser', () => {
  it('is traced with an arc of its true radius, fitted with chords and wedges, and taken away', async () => {
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      acceptDownloads: true,
    });
    page = await context.newPage();
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(host.url);
    await page.getByLabel('New project').fill('Bollard Lane');
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByLabel('Plan file').setInputFiles(join(folder, 'curved bar.pdf'));
    await page.getByRole('button', { name: 'Use page 1' }).click();
    const project = projectPage(page, a2);
    await project.waitForSheet();
    await page.getByRole('button', { name: 'Pick a known dimension' }).waitFor();
    await shot('arc plan');
    await page.getByRole('button', { name: 'Pick a known dimension' }).click();
    await project.pick(dimension.from);
    await project.pick(dimension.to);
    await project.type('10000');
    await expect.poll(() => project.answer('Scale').textContent()).toMatch(/^1:50 ±/);
    await project.openStep('Runs');

    await page.getByRole('button', { name: 'Trace', exact: true }).click();
    await project.pick(front.start);
    await project.pick(front.bend);
    await page.keyboard.press('a');
    await page.locator('.entry-prompt', { hasText: 'goes on from the last straight' }).waitFor();
    await project.point(room(12_900, 6300));
    await shot('arc following');
    await project.pick(front.bent);
    await project.pick(front.end);
    await project.confirm();
    await project.point(room(12_000, 8000));
    await project.type('620');
    await expect.poll(() => project.answer('Runs').textContent()).toBe('1');

    await expect.poll(() => project.answer('Fit').textContent(), { timeout: 30_000 }).toMatch(/pieces/);
    await shot('arc fitted');
    await page
      .getByText(/^arc R 3\s?\d\d\d/)
      .first()
      .waitFor();
    await project.openStep('Runs');
    const wholeMm = 4500 + (Math.PI / 2) * radiusMm + 3600;
    const shown = (await page.locator('.lines .length').first().textContent()) ?? '';
    const lengthMm = Number(shown.split('±')[0]?.replace(/[^\d]/g, ''));
    process.stdout.write(`whole front: ${lengthMm} mm shown, ${wholeMm.toFixed(1)} mm drawn\n`);
    expect(Math.abs(lengthMm - wholeMm)).toBeLessThan(12);

    await project.openStep('Take away');
    expect((await taken('Setting-out drawing (PDF)')).subarray(0, 5).toString()).toBe('%PDF-');
    expect((await taken('Plan with runs (PDF)')).subarray(0, 5).toString()).toBe('%PDF-');
    const schedule = (await taken('Schedule (CSV)')).toString();
    expect(schedule).toContain('Wedge on the arc, made to measure');
    expect(complaints).toEqual([]);
  });
});
