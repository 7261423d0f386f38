import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { openArchive } from '../../src/archive/openArchive.ts';
import { readCsvRows } from '../../src/stock/csvRows.ts';
import { archivedProjects, fillWith } from '../archive/archivedProjects.ts';
import { type HostProcess, startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';

const now = (): string => '2027-03-15T10:20:30.000Z';
const projectFile = new URL('../fixtures/bundle/format1-document1.zip', import.meta.url).pathname;

/** One page, 200 x 100 points, with a line of text in a standard font (ISO 32000-1, 9.6.2.2). */
const planSaying = (text: string): string => {
  const content = `BT /F1 12 Tf 10 50 Td (${text}) Tj ET`;
  return `%PDF-1.4
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 100]/Contents 4 0 R/Resources<</Font<</F1<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>>>>>>>endobj
4 0 obj<</Length ${content.length}>>stream
${content}
endstream endobj
trailer<</Root 1 0 R>>
%%EOF
`;
};

let browser: Browser;
let folder: string;
const complaints: string[] = [];

const openPage = async (host: HostProcess): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(host.url);
  return page;
};

const hostOn = async (name: string, projects: number): Promise<HostProcess> => {
  const archiveDir = join(folder, name);
  if (projects > 0) {
    const archive = await openArchive({ folder: archiveDir, now });
    await fillWith(archive.store, archivedProjects(projects, 7));
    archive.close();
  }
  const host = await startHostProcess(archiveDir);
  onTestFinished(host.stop);
  return host;
};

const names = (page: Page) => page.locator('.ledger-name').allTextContents();
const turner = (page: Page) => page.locator('.page-turner [role=status]');

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-archive-e2e-'));
  for (const [name, text] of [
    ['Weir Street GF.pdf', 'MEZZANINE OVER'],
    ['Old Wharf.pdf', 'CELLAR'],
  ] as const)
    writeFileSync(join(folder, name), planSaying(text));
  writeFileSync(join(folder, 'letter.pdf'), 'Dear Sirs');
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('the archive in a browser', () => {
  it('takes in several old plans at once, finds one by a word on it, and keeps the job’s papers', async () => {
    const page = await openPage(await hostOn('several', 0));
    await page.getByText('Nothing archived yet').waitFor();
    await page.getByText('The archive is sound').waitFor();
    const files = ['Weir Street GF.pdf', 'letter.pdf', 'Old Wharf.pdf'].map((name) => join(folder, name));
    await page.getByLabel('Plan files', { exact: true }).setInputFiles(files);
    await page.getByText('2 of 3 taken in, 1 not.').waitFor();
    expect(await page.locator('.taken-files .alert').textContent()).toContain('letter.pdf');
    await expect.poll(async () => (await names(page)).sort()).toEqual(['Old Wharf', 'Weir Street GF']);

    // The same files again make no second project.
    await page.getByLabel('Plan files', { exact: true }).setInputFiles(files.slice(0, 1));
    await page.getByText('is the plan of Weir Street GF already').waitFor();
    expect(await page.locator('.ledger-name').count()).toBe(2);

    await page.getByLabel('Find').fill('mezz');
    await expect.poll(() => names(page)).toEqual(['Weir Street GF']);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');

    await page.locator('.step-head', { hasText: 'Job' }).click();
    await page.getByLabel('Client').fill('Salt Lane');
    await page.getByLabel('Client').press('Enter');
    await page.getByText('Questions').click();
    await page.getByLabel('Question asked today').fill('Is the soffit level?');
    await page.getByRole('button', { name: 'Add', exact: true }).last().click();
    await page.getByText('1, 1 open').waitFor();
    await page.getByLabel('State').selectOption('lost');
    await page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
    await page.getByText('History').click();
    await expect.poll(() => page.locator('.history-label').count()).toBe(4);
    await page.locator('.history-copy').last().click();
    await page.getByText('In the archive as “Weir Street GF (copy)”.').waitFor();
    await page.getByRole('button', { name: 'Seen before?' }).click();
    await page.getByText('has the same plan, Weir Street GF.pdf').waitFor();

    await page.getByRole('button', { name: 'Archive' }).click();
    await page.getByText('1 open question').waitFor();
    await expect.poll(() => turner(page).textContent()).toBe('3 projects');
    await page.getByLabel('Find').fill('soffit');
    await expect.poll(() => names(page)).toEqual(['Weir Street GF']);
  });

  it('finds, sorts, turns pages, saves searches and lists among 500 projects', async () => {
    const page = await openPage(await hostOn('many', 500));
    await expect.poll(() => turner(page).textContent()).toBe('1 to 50 of 500');
    await page.getByRole('button', { name: 'After' }).click();
    await expect.poll(() => turner(page).textContent()).toBe('51 to 100 of 500');
    await page.getByRole('button', { name: 'Project', exact: true }).click();
    await expect.poll(() => turner(page).textContent()).toBe('1 to 50 of 500');
    const sorted = await names(page);
    expect(sorted).toEqual([...sorted].sort((one, other) => new Intl.Collator('en').compare(one, other)));

    await page.locator('body').press('/');
    await page.keyboard.type('quay');
    await page.getByRole('checkbox', { name: /^lost/ }).check();
    const due = archivedProjects(500, 7)
      .filter(({ document: { job, sheets } }) => {
        const texts = [job.name, job.site, ...Object.values(sheets).map(({ planFileName }) => planFileName)];
        return job.state === 'lost' && texts.some((text) => /\bquay/i.test(text));
      })
      .map(({ document }) => document.job.name);
    await expect.poll(async () => (await names(page)).sort()).toEqual(due.sort());

    await page.getByRole('button', { name: 'Save this search' }).click();
    await page.getByLabel('Its name').fill('Lost quays');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByRole('button', { name: 'Everything again' }).click();
    await expect.poll(() => turner(page).textContent()).toBe('1 to 50 of 500');
    await page.getByRole('button', { name: 'Lost quays', exact: true }).click();
    await expect.poll(async () => (await names(page)).sort()).toEqual(due.sort());

    const [list] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'List as CSV' }).click(),
    ]);
    const rows = readCsvRows(readFileSync(await list.path(), 'utf8').replace('\uFEFF', ''), ',');
    expect(
      rows.ok &&
        rows.rows
          .slice(1)
          .map(({ cells }) => cells[0])
          .sort(),
    ).toEqual(due.sort());

    await page.getByLabel('Find').fill('nothing is called this');
    await page.getByText('No project is like that.').waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
  });

  it('takes a project file in once, and gives it out again byte for byte the same project', async () => {
    const page = await openPage(await hostOn('files', 0));
    const give = page.getByLabel('Project file', { exact: true });
    await give.setInputFiles(projectFile);
    await page.getByText('taken in with all its changes').waitFor();
    await give.setInputFiles(projectFile);
    await page.getByText('there already, nothing changed').waitFor();
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Project file of Old Wharf Hall' }).click(),
    ]);
    const path = join(folder, 'again.zip');
    copyFileSync(await file.path(), path);
    const other = await openPage(await hostOn('other', 0));
    await other.getByLabel('Project file', { exact: true }).setInputFiles(path);
    await other.getByText('taken in with all its changes').waitFor();
    const torn = readFileSync(path);
    torn[Math.floor(torn.length / 2)]! ^= 1;
    writeFileSync(path, torn);
    await other.getByLabel('Project file', { exact: true }).setInputFiles(path);
    await other.getByText('Nothing was taken in.').waitFor();
  });

  it('says what is wrong with a damaged archive, and which backup is good', async () => {
    const archiveDir = join(folder, 'damaged');
    mkdirSync(archiveDir);
    const archive = await openArchive({ folder: archiveDir, now });
    await fillWith(archive.store, archivedProjects(20, 7));
    const backup = await archive.backUp();
    archive.close();
    const bytes = readFileSync(archive.path);
    // A letter of a job number, in its rows and not in a document's JSON: SQLite's own check does not see it.
    for (let at = bytes.indexOf('J00007'); at !== -1; at = bytes.indexOf('J00007', at + 1))
      if (bytes.toString('latin1', at - 1, at) !== '"') bytes.write('K', at);
    writeFileSync(archive.path, bytes);
    const host = await startHostProcess(archiveDir);
    onTestFinished(host.stop);
    const page = await openPage(host);
    const health = page.locator('.archive-health');
    await health.getByText('The archive is damaged').waitFor();
    expect(await health.textContent()).toContain(`footrail archive restore ${backup!.name}`);
    // What is whole can still be found.
    await expect.poll(() => page.locator('.ledger-name').count()).toBeGreaterThan(15);
    // And saved.
    expect(await health.textContent()).toContain('footrail archive salvage --out FOLDER');
  });

  it('stops taking a folder in when asked, and what was taken in stays', async () => {
    const page = await openPage(await hostOn('stopped', 0));
    const old = join(folder, 'old');
    mkdirSync(join(old, '2019'), { recursive: true });
    const count = 40;
    for (let number = 0; number < count; number += 1)
      writeFileSync(
        join(old, number % 2 === 0 ? '' : '2019', `Plan ${number}.pdf`),
        planSaying(`SHEET ${number}`),
      );
    writeFileSync(join(old, 'notes.txt'), 'none of ours');
    await page.getByLabel('Folder of plan files', { exact: true }).setInputFiles(old);
    const status = page.locator('.taken-files [role=status]');
    await expect.poll(() => status.textContent()).toMatch(/Taking in [2-9] of 40/);
    await page.locator('.taken-files progress').waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await expect.poll(() => status.textContent()).toMatch(/^\d+ of 40 taken in/);
    const taken = Number(/^\d+/.exec((await status.textContent()) ?? '')?.[0]);
    expect(taken).toBeGreaterThan(0);
    expect(taken).toBeLessThan(count);
    await page.getByRole('button', { name: 'Put away' }).click();
    await page.reload();
    // The one under way may have been made when the word to stop came.
    await expect.poll(async () => (await page.locator('.ledger-name').count()) - taken).toBeOneOf([0, 1]);
  });

  it('takes names of any length without breaking its lines', async () => {
    const page = await openPage(await hostOn('long', 0));
    for (const name of ['W'.repeat(200), 'Bar '.repeat(50).trim()]) {
      await page.getByLabel('New project').fill(name);
      await page.getByRole('button', { name: 'Start' }).click();
      await page.getByRole('button', { name: 'Archive' }).click();
    }
    await expect.poll(() => page.locator('.ledger-name').count()).toBe(2);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    expect(complaints).toEqual([]);
  });
});
