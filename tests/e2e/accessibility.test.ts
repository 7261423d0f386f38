import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
import { accessFaults, smallTargets } from './accessFaults.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { projectPage } from './projectPage.ts';

/** The demo sheet: A1 landscape (ISO 216), 841 x 594 mm. */
const a1 = { viewBox: [0, 0, (841 * 72) / 25.4, (594 * 72) / 25.4], rotationDeg: 0, userUnit: 1 } as const;

let browser: Browser;
let host: HostProcess;
let folder: string;
let page: Page;

/** No fault and no target that is too small, as the page is now. */
const isSound = async (where: string, on: Page = page): Promise<void> => {
  expect(await accessFaults(on), where).toEqual([]);
  expect(await smallTargets(on), where).toEqual([]);
};
const openStep = async (word: string, on: Page = page): Promise<void> => {
  const head = on.locator('.step-head', { hasText: new RegExp(`^${word}`) }).first();
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
};
const steps = ['Job', 'Plan', 'Scale', 'Runs', 'Fit', 'Way in', 'Site measure', 'Price', 'Take away'];
const openAllThatFolds = () =>
  page.locator('.rail-steps details').evaluateAll((all) => {
    for (const one of all) one.setAttribute('open', '');
  });
const planFile = (name: string, bytes: Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};
const takeIn = (path: string) => page.getByLabel('Plan file').setInputFiles(path);
const leave = () => page.getByRole('button', { name: 'Leave it' }).click();
const textSize = (size: string) =>
  page.evaluate((wanted) => {
    document.documentElement.style.fontSize = wanted;
  }, size);
const scrollsSideways = () => page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-axe-'));
  browser = await openBrowser();
  host = await startHostProcess(join(folder, 'archive'));
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(host.url);
});

afterAll(async () => {
  await browser?.close();
  await host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('every screen against WCAG 2.2 AA', () => {
  it('the empty archive, which names the steps of a job in their order', async () => {
    await page.getByText('Nothing archived yet').waitFor();
    expect(await page.locator('.archive-job b').allTextContents()).toEqual(steps.slice(1));
    await isSound('empty, light');
    await page.getByRole('button', { name: 'Dark', exact: true }).click();
    await isSound('empty, dark');
    await page.getByRole('button', { name: 'Light', exact: true }).click();
  });

  it('a project with nothing in it yet: each step says what has to come first', async () => {
    await page.getByLabel('New project').fill('Not begun');
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByText('Drop the architect’s plan here').waitFor();
    for (const step of steps.slice(1)) {
      await openStep(step);
      await isSound(`${step}, no plan`);
    }
    await openStep('Runs');
    await page.getByText('Take in a plan first.').waitFor();
    await openStep('Fit');
    await page.getByText('Trace a run first').waitFor();
  });

  it('taking in a plan: refused, protected, of several pages', async () => {
    await takeIn(planFile('letter.pdf', new TextEncoder().encode('Dear architect, please find attached')));
    await page.getByRole('dialog').getByRole('alert').waitFor();
    await isSound('refused');
    await leave();

    const locked = await PDFDocument.load(await drawDemoPlan());
    locked.encrypt({ userPassword: 'cellar', ownerPassword: 'attic' });
    await takeIn(planFile('protected.pdf', await locked.save({ useObjectStreams: false })));
    await page.getByLabel('This plan has a password').fill('loft');
    await isSound('password');
    await page.keyboard.press('Enter');
    await page.getByLabel('That password does not open it').waitFor();
    await isSound('wrong password');
    await leave();

    const several = await PDFDocument.load(await drawDemoPlan());
    several.addPage([595.28, 841.89]);
    await takeIn(planFile('two pages.pdf', await several.save()));
    await page.getByText('Choose the page to work on, of 2.').waitFor();
    await page.getByRole('button', { name: 'Use page 1' }).waitFor();
    await isSound('pages');
    await leave();
    await page.getByRole('button', { name: 'Archive' }).click();
  });

  it('the project with each step open, in light and in dark', async () => {
    await page.getByText('open the demo project').click();
    await page.locator('[data-drawing=sharp]').waitFor();
    await page.locator('.elevation svg').first().waitFor();
    for (const theme of ['Dark', 'Light']) {
      for (const step of steps) {
        await openStep(step);
        if (step !== 'Runs') await openAllThatFolds();
        await isSound(`${step}, before ${theme}`);
        if (step === 'Way in')
          for (const view of ['Ways in', 'Loads', 'Pieces']) {
            await page.locator('.elevation-acts').getByRole('button', { name: view }).click();
            await isSound(`${view}, before ${theme}`);
          }
        if (step !== 'Runs') continue;
        // A bay as it is described, then the same as a low section, with all that is folded away open.
        await page.getByRole('button', { name: /^B Glasswasher/ }).click();
        for (const kind of ['bay', 'low', 'bay']) {
          await page.getByLabel(/^Is/).selectOption(kind);
          await openAllThatFolds();
          await isSound(`a ${kind}, before ${theme}`);
        }
      }
      await page.locator('.step-head', { hasText: /^Job/ }).click();
      await page.getByRole('button', { name: theme, exact: true }).click();
    }
  });

  it('each tool under way, with the magnifier and what is offered', async () => {
    const project = projectPage(page, a1);
    const [start, corner] = demoPlanTruth.frontBar.frontLine;
    await page.getByRole('button', { name: 'Trace', exact: true }).click();
    await project.pick(start);
    await project.point(corner);
    await isSound('trace');
    await project.pick(corner);
    await page.keyboard.press('a');
    await isSound('arc');
    for (let back = 0; back < 4; back += 1) await page.keyboard.press('Escape');
    for (const tool of ['Measure', 'Aisle']) {
      await page.getByRole('button', { name: tool, exact: true }).click();
      await project.pick(corner);
      await isSound(tool);
      await page.keyboard.press('Escape');
    }
    await page.keyboard.press('Escape');
  });

  it('holds at 200 % text, in a narrow window and in feet and inches, and scrolls no way but down', async () => {
    await page.getByRole('button', { name: 'Show feet and inches' }).click();
    for (const [size, width] of [
      ['200%', 1440],
      ['', 1024],
    ] as const) {
      await page.setViewportSize({ width, height: 800 });
      await textSize(size);
      for (const step of ['Runs', 'Way in']) {
        await openStep(step);
        await isSound(`${step}, ${size || 'usual'} text, ${width} wide`);
        expect(await scrollsSideways()).toBe(false);
        const board = await page.locator('.project-board').boundingBox();
        expect(board?.height, 'what is left for the sheet').toBeGreaterThan(150);
      }
    }
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.getByRole('button', { name: 'Show millimetres' }).click();
  });

  it('everything that can be pressed is reached by Tab, shows where the keys are and has a name', async () => {
    await openStep('Runs');
    await page.getByRole('button', { name: 'Front bar', exact: true }).click();
    await page.getByRole('button', { name: 'Archive' }).focus();
    const reached: string[] = [];
    const unseen: string[] = [];
    for (let count = 0; count < 250; count += 1) {
      await page.keyboard.press('Tab');
      const now = await page.evaluate(() => {
        const at = document.activeElement;
        if (!at || at === document.body) return null;
        const { outlineStyle, outlineWidth, stroke, strokeWidth } = getComputedStyle(at);
        const isOutlined = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1.5;
        const isStroked = at instanceof SVGElement && stroke !== 'none' && Number.parseFloat(strokeWidth) > 0;
        at.setAttribute('data-reached', '');
        return { html: at.outerHTML.slice(0, 120), isSeen: isOutlined || isStroked };
      });
      if (!now) break;
      reached.push(now.html);
      if (!now.isSeen) unseen.push(now.html);
    }
    expect(unseen).toEqual([]);
    expect(reached.length).toBeGreaterThan(40);
    const missed = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, input, select, textarea, summary')]
        .filter(
          (one) =>
            one.tabIndex >= 0 &&
            !one.matches(':disabled, [data-reached], .visually-hidden') &&
            one.checkVisibility({ visibilityProperty: true }) &&
            // Where the walk began.
            one.textContent !== 'Archive',
        )
        .map((one) => one.outerHTML.slice(0, 120)),
    );
    expect(missed).toEqual([]);
  });

  it('what goes out: nothing drawn yet', async () => {
    await openStep('Take away');
    await page.getByRole('button', { name: 'Preview and issue' }).click();
    await page.getByText('Draw the preview to see').waitFor();
    await isSound('issued, empty');
    await textSize('200%');
    await isSound('issued, 200 %');
    await textSize('');
    await page.locator('.issued-head .word-button').first().click();
  });

  it('a clash of two windows, and a notice', async () => {
    const other = await page.context().newPage();
    await other.goto(page.url());
    await openStep('Job');
    await openStep('Job', other);
    for (const [on, client] of [
      [page, 'Northgate'],
      [other, 'Tollhouse'],
    ] as const) {
      await on.getByLabel('Client').fill(client);
      await on.getByLabel('Client').press('Enter');
    }
    const clash = other.getByRole('alertdialog');
    await clash.waitFor();
    await isSound('clash', other);
    await clash.getByRole('button', { name: 'Keep yours' }).click();
    await other.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
    await other.close();
    await page.getByLabel('Client').fill('Ferrow');
    await page.getByLabel('Client').press('Enter');
    await page
      .getByText(/changed in another window|Another window changed/)
      .first()
      .waitFor();
    await isSound('notice');
  });

  it('the archive with projects in it: as it is, narrowed to none, a search being saved, past their day', async () => {
    await page.goto(new URL('/', host.url).href);
    await page.locator('.ledger').waitFor();
    await isSound('archive');
    await page.getByLabel('enquiry').check();
    await page.getByRole('button', { name: 'Save this search' }).click();
    await isSound('saving a search');
    await page.keyboard.press('Escape');
    await page.getByLabel('Find').fill('no such venue');
    await page.getByText('No project is like that.').waitFor();
    await isSound('none');
    await page.getByRole('button', { name: 'Everything again' }).click();
    await page.getByRole('button', { name: 'Past their day, and purging' }).click();
    await page
      .locator('.ledger')
      .last()
      .getByRole('button', { name: /^Purge Not begun/ })
      .click();
    await page.getByRole('dialog').getByText('Goes for good').waitFor();
    await isSound('purging');
    await page.keyboard.press('Escape');
    await textSize('200%');
    await isSound('archive, 200 %');
    expect(await scrollsSideways()).toBe(false);
    await textSize('');
  });

  it('the stock ranges with a cell that needs work', async () => {
    await page.getByRole('button', { name: 'Stock ranges' }).click();
    await page.getByRole('button', { name: /^Services and more of Beer station 600/ }).click();
    await page.getByLabel('Price of Module 900, open with undershelf', { exact: true }).fill('on request');
    await page.keyboard.press('Enter');
    await page.getByText('One cell needs work').waitFor();
    await isSound('stock range');
  });

  it('a host that does not answer', async () => {
    await page.goto(new URL('/', host.url).href);
    await page.getByText('Not begun').first().click();
    await openStep('Job');
    await host.kill();
    await page.getByLabel('Client').fill('Umber');
    await page.getByLabel('Client').press('Enter');
    await page.getByText('1 step is not saved yet').waitFor();
    await isSound('not saved');
  });
});
