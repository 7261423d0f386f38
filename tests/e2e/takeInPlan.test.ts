import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
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

const protectedPlan = async (): Promise<Uint8Array> => {
  const plan = await PDFDocument.load(await drawDemoPlan());
  plan.encrypt({ userPassword: 'cellar', ownerPassword: 'owner', permissions: {} });
  return plan.save({ useObjectStreams: false });
};

const threePages = async (): Promise<Uint8Array> => {
  const plan = await PDFDocument.load(await drawDemoPlan());
  plan.addPage([595.28, 841.89]);
  plan.addPage([1190.55, 841.89]);
  return plan.save();
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-take-in-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(host.url);
  await page
    .getByLabel('New project')
    .fill('A name that is as long as the longest that an office has ever given a venue');
  await page.getByRole('button', { name: 'Start' }).click();
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const planStep = () => page.locator('.step-head', { hasText: /^Plan/ });
const take = (path: string) => page.getByLabel('Plan file').setInputFiles(path);
const dialog = () => page.getByRole('dialog', { name: 'Take in a plan' });
const leave = async () => {
  await page.getByRole('button', { name: 'Leave it' }).click();
  await dialog().waitFor({ state: 'hidden' });
};

describe('taking in a plan', () => {
  it('refuses what is no plan with its reason, and loses nothing', async () => {
    await take(planFile('letter.pdf', new TextEncoder().encode('Dear architect, please find attached …')));
    await dialog().getByRole('alert').waitFor();
    expect(await dialog().getByRole('alert').textContent()).toMatch(/PDF/);
    expect(await page.getByRole('button', { name: /^Use page/ }).count()).toBe(0);
    await leave();

    const whole = await drawDemoPlan();
    await take(planFile('cut short.pdf', whole.slice(0, 2000)));
    await dialog().getByRole('alert').waitFor();
    await leave();
    expect(await planStep().locator('.step-answer').textContent()).toBe('none yet');
  });

  it('lets one choose among the pages, each with its size', async () => {
    await take(planFile('three pages.pdf', await threePages()));
    await page.getByText('Choose the page to work on, of 3.').waitFor();
    await page.getByText('2: A4, 210 × 297 mm').click();
    await page.getByRole('button', { name: 'Use page 2' }).click();
    await page.locator('[data-drawing=sharp]').waitFor();
    await planStep().click();
    await page.getByText('three pages.pdf, page 2').waitFor();
  });

  it('asks for a password, says when it is wrong, and asks again when the window was closed', async () => {
    await take(planFile('protected.pdf', await protectedPlan()));
    const field = dialog().getByLabel('This plan has a password');
    await field.fill('attic');
    await field.press('Enter');
    const again = dialog().getByLabel('That password does not open it. Try another');
    await again.fill('cellar');
    await again.press('Enter');
    await page.getByRole('button', { name: 'Use page 1' }).click();
    await page.locator('[data-drawing=sharp]').waitFor();
    await page.locator('.step-head', { hasText: 'Scale' }).click();
    await page.getByText('What the sheet says').waitFor();
    await page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();

    await page.reload();
    await planStep().click();
    await page.getByRole('button', { name: 'protected', exact: true }).click();
    await page.getByLabel('This plan has a password').fill('cellar');
    await page.getByRole('button', { name: 'Open', exact: true }).click();
    await page.locator('[data-drawing=sharp]').waitFor();
  });
});
