import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { menuWords } from '../../electron/ipc/menuChoices.ts';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
import type { MenuChoice } from '../../src/app/desktopBridge.ts';
import { menuItemsOf } from '../electron/electronStandIn.ts';
import { openBrowser } from './openBrowser.ts';
import { type DesktopShell, openDesktopShell } from './openDesktopShell.ts';

let browser: Browser;
let folder: string;
let shell: DesktopShell;

const itemFor = (choice: MenuChoice) =>
  menuItemsOf(shell.electron.record.menu).find(({ id }) => id === choice);

const choose = async (choice: MenuChoice): Promise<void> => {
  await expect.poll(() => itemFor(choice)?.enabled, { message: menuWords[choice] }).toBe(true);
  const click = itemFor(choice)?.click as (() => void) | undefined;
  click?.();
};

const rail = {
  answer: (word: string) =>
    shell.page.locator('.step-head', { hasText: word }).first().locator('.step-answer'),
  keeping: () => shell.page.locator('.rail-keeping [role=status]'),
};

beforeAll(async () => {
  browser = await openBrowser();
});

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-desktop-'));
});

afterEach(async () => {
  const complaints = shell.complaints;
  await shell.close();
  rmSync(folder, { recursive: true, force: true });
  // Nothing that the page's policy refused, and no error of its scripts.
  expect(complaints).toEqual([]);
});

afterAll(() => browser?.close());

describe('the desktop program, as built, over a stand-in of Electron', () => {
  it('opens the demo project, takes the menu’s choices, saves with the native dialogs, and comes back as left', async () => {
    shell = await openDesktopShell(browser, { folder, demo: true });
    await shell.page.locator('.sheet-view').waitFor();
    await expect.poll(() => rail.answer('Fit').textContent(), { timeout: 30_000 }).toMatch(/pieces/);
    const address = new URL(shell.page.url()).hash;
    expect(address).toMatch(/^#project=project-/);

    // The demo was traced in one step; without it there is nothing to take away, and the page says so.
    await choose('undo');
    await expect.poll(() => rail.answer('Runs').textContent()).toBe('none yet');
    await choose('save-schedule');
    await shell.page.getByText('No run of this project has a fit yet').waitFor();
    expect(shell.electron.dialog.shown).toEqual([]);
    await choose('redo');
    await expect.poll(() => rail.answer('Runs').textContent()).toBe('2');
    await expect.poll(() => rail.keeping().textContent()).toBe('Saved');

    const schedule = join(folder, 'the schedule.csv');
    shell.electron.dialog.nextSave = { canceled: false, filePath: schedule };
    await choose('save-schedule');
    await expect
      .poll(() => shell.electron.dialog.shown.map(({ options }) => options['title']), { timeout: 30_000 })
      .toEqual(['Save']);
    await expect.poll(() => readFileSync(schedule, 'utf8').split('\r\n')[0]).toContain('Width (mm)');

    const plan = join(folder, 'the plan.pdf');
    shell.electron.dialog.nextSave = { canceled: false, filePath: plan };
    await shell.page.getByRole('button', { name: 'Plan with runs (PDF)' }).click();
    await expect.poll(() => shell.electron.dialog.shown.length, { timeout: 60_000 }).toBe(2);
    await expect.poll(() => readFileSync(plan).subarray(0, 5).toString()).toBe('%PDF-');

    await choose('undo');
    await expect.poll(() => rail.keeping().textContent()).toBe('Saved');
    await shell.close();
    shell = await openDesktopShell(browser, { folder, demo: true });
    await expect.poll(() => new URL(shell.page.url()).hash).toBe(address);
    await expect.poll(() => rail.answer('Runs').textContent()).toBe('none yet');
    await choose('redo');
    await expect.poll(() => rail.answer('Runs').textContent()).toBe('2');
  });

  it('starts a project from a plan that is picked in the native dialog', async () => {
    const path = join(folder, 'ground floor.pdf');
    writeFileSync(path, await drawDemoPlan());
    shell = await openDesktopShell(browser, { folder, demo: false });
    await shell.page.getByText('Nothing archived yet').waitFor();
    expect(itemFor('save-plan')?.enabled).toBe(false);
    shell.electron.dialog.nextOpen = { canceled: false, filePaths: [path] };
    await choose('add-plan');
    await shell.page.getByRole('button', { name: 'Use page 1' }).click();
    await shell.page.getByText('What the sheet says').waitFor();
    await expect.poll(() => rail.keeping().textContent()).toBe('Saved');
  });
});
