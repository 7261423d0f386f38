import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { createApi } from '../../src/app/createApi.ts';
import { createNodePorts } from '../../src/host/nodePorts.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { archivedProjects, fillWith } from '../archive/archivedProjects.ts';
import { startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { picture } from './picture.ts';

let browser: Browser;
let folder: string;
const projects = archivedProjects(40, 23);
const due = projects.find(
  ({ document: { job, runIds } }) => job.retainUntil !== '' && job.client !== '' && runIds.length > 1,
)!;

const openPage = async (archiveDir: string): Promise<Page> => {
  const host = await startHostProcess(archiveDir);
  onTestFinished(host.stop);
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto(host.url);
  return page;
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-purge-e2e-'));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('in the archive’s screen', () => {
  it('a project past its day is purged, with what goes, what stays and which backups hold it said before', async () => {
    const archiveDir = join(folder, 'purge');
    const { ports, archive } = await createNodePorts({ archiveDir });
    await fillWith(ports.store, projects);
    await archive.backUp();
    archive.close();
    const page = await openPage(archiveDir);
    await page.getByRole('button', { name: 'Past their day, and purging' }).click();
    const past = page.getByRole('region', { name: 'Past their day' });
    await past.getByText(due.document.job.name).waitFor();
    await picture(page, 'past');
    await past.getByRole('button', { name: `Purge ${due.document.job.name} …` }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Goes for good').waitFor();
    await dialog.getByText('beside the archive would still hold it').waitFor();
    await picture(page, 'purge');
    // Escape purges nothing.
    await page.keyboard.press('Escape');
    await expect.poll(() => dialog.count()).toBe(0);
    await past.getByRole('button', { name: `Purge ${due.document.job.name} …` }).click();
    await dialog.getByRole('button', { name: 'Purge for good' }).click();
    await dialog.getByText('It is gone from the archive').waitFor();
    await picture(page, 'purged');
    await dialog.getByRole('button', { name: 'Close' }).click();
    await past.getByText('1 purged project stays as counts').waitFor();
    await expect.poll(() => past.getByText(due.document.job.name, { exact: true }).count()).toBe(0);
    await expect.poll(() => page.locator('.page-turner [role=status]').textContent()).toBe('39 projects');
    for (const name of ['archive.sqlite', 'archive.sqlite-wal'])
      expect(readFileSync(join(archiveDir, name)).includes(due.document.job.name)).toBe(false);
  });

  it('stations, range, pieces and retention narrow the list down', async () => {
    const archiveDir = join(folder, 'wishes');
    const { ports, archive } = await createNodePorts({ archiveDir });
    await fillWith(ports.store, projects);
    const [item] = demoRange.items;
    await ports.store.putStockRange(
      {
        ...demoRange,
        id: 'other-range',
        name: 'Other range',
        items: [...demoRange.items, { ...item!, id: 'cocktail-station', name: 'Cocktail station' }],
      },
      '2027-03-15T10:20:30.000Z',
    );
    archive.close();
    const page = await openPage(archiveDir);
    const shown = () => page.locator('.page-turner [role=status]').textContent();
    const words = (count: number) => (count === 0 ? 'none' : count === 1 ? '1 project' : `${count} projects`);
    await expect.poll(shown).toBe(words(40));
    const wanting = projects.filter(({ document: { stations } }) =>
      Object.values(stations).some(({ item }) => item === 'cocktail-station'),
    );
    await page.getByLabel('Station wanted').selectOption('cocktail-station');
    await expect.poll(shown).toBe(words(wanting.length));
    await page.getByLabel('day', { exact: true }).fill('2024-01-01');
    const kept = wanting.filter(
      ({ document: { job } }) => job.retainUntil !== '' && job.retainUntil < '2024-01-01',
    );
    await expect.poll(shown).toBe(words(kept.length));
    await picture(page, 'wishes');
    await page.getByRole('button', { name: 'Everything again' }).click();
    const demo = projects.filter(({ document }) => document.stockRange.id === 'other-range');
    expect(demo.length).toBeGreaterThan(0);
    await page.getByLabel('Stock range', { exact: true }).selectOption(demoRange.id);
    await expect.poll(shown).toBe(words(40 - demo.length));
  });

  it('a project file that has gone another way is compared, and the person decides', async () => {
    const [here, there] = ['here', 'there'].map((name) => join(folder, name)) as [string, string];
    const file = join(folder, 'parted.zip');
    const change = async (archiveDir: string, client: string, exported: string | null) => {
      const { ports, archive } = await createNodePorts({ archiveDir });
      const api = createApi(ports);
      const done = async (method: string, input: unknown) => {
        const answer = await api.call(method, input);
        if (!answer.ok) throw new Error(answer.error.message);
        return answer.value as { revision: number; bytes: Uint8Array; projectId: string };
      };
      if ((await ports.store.listProjects()).length === 0) {
        if (exported === null) await done('import-project', { bytes: readFileSync(file) });
        else await done('create-project', { name: 'Plover Yard' });
      }
      const [row] = await ports.store.listProjects();
      const { revision } = await done('open-project', { projectId: row!.projectId });
      await done('apply-command', {
        projectId: row!.projectId,
        revision,
        command: { type: 'change-job', changes: { client } },
      });
      const { bytes } = await done('export-project', { projectId: row!.projectId });
      if (exported !== null) writeFileSync(exported, bytes);
      archive.close();
    };
    await change(here, 'Umber', file);
    await change(there, 'Northgate', null);
    await change(here, 'Tollhouse', file);
    const page = await openPage(there);
    await page.getByLabel('Project file', { exact: true }).setInputFiles(file);
    await page.getByRole('button', { name: 'Compare and choose' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('gone two ways').waitFor();
    expect(await dialog.locator('tbody tr').first().allTextContents()).toEqual(['ClientNorthgateTollhouse']);
    await picture(page, 'parted');
    await dialog.getByRole('button', { name: 'Keep what is here' }).click();
    await page.getByText('what is here stays as it is').waitFor();
    await page.getByLabel('Project file', { exact: true }).setInputFiles(file);
    await page.getByRole('button', { name: 'Compare and choose' }).click();
    await dialog.getByRole('button', { name: 'Take the file’s over' }).click();
    await page.getByText('the file’s state taken over').waitFor();
    await expect
      .poll(() => page.locator('.ledger tbody .ledger-word').allTextContents())
      .toContain('Tollhouse');
  });
});
