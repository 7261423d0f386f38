import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { createApi } from '../../src/app/createApi.ts';
import { createNodePorts } from '../../src/host/nodePorts.ts';
import { inventedIssue } from '../app/bundle/issuedProject.ts';
import { startHostProcess } from './hostProcess.ts';
import { openBrowser } from './openBrowser.ts';
import { picture } from './picture.ts';

const issued = readFileSync(new URL('../fixtures/bundle/format2-document1.zip', import.meta.url));
let browser: Browser;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'footrail-history-e2e-'));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** An archive with the project of the file and an issue 4 of its own; answers the project as a file. */
const archiveWith = async (archiveDir: string, said: string): Promise<Uint8Array> => {
  const { ports, archive } = await createNodePorts({ archiveDir });
  const api = createApi(ports);
  const taken = await api.call('import-project', { bytes: new Uint8Array(issued) });
  if (!taken.ok) throw new Error(taken.error.message);
  const { projectId } = taken.value as { readonly projectId: never };
  const issue = inventedIssue(4, 2, said);
  await ports.store.addIssue({ projectId, expectedRevision: 2, issue });
  const file = await api.call('export-project', { projectId });
  archive.close();
  if (!file.ok) throw new Error(file.error.message);
  return (file.value as { readonly bytes: Uint8Array }).bytes;
};

describe('what was issued, in the window', () => {
  it('stands in the history, and a number that went out twice lets the file in only as a copy', async () => {
    const other = join(folder, 'other.zip');
    writeFileSync(other, await archiveWith(join(folder, 'there'), ' of another make'));
    await archiveWith(join(folder, 'here'), '');
    const host = await startHostProcess(join(folder, 'here'));
    onTestFinished(host.stop);
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    onTestFinished(() => context.close());
    const page = await context.newPage();
    page.on('pageerror', (error) => {
      throw error;
    });
    await page.goto(host.url);
    await page.getByLabel('Project file', { exact: true }).setInputFiles(other);
    await page.getByText('has gone another way than here').waitFor();
    await page
      .getByRole('button', { name: /Compare|choose/i })
      .first()
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('row', { name: /Issue 4/ }).waitFor();
    await picture(page, 'issue-conflict');
    expect(await dialog.getByRole('button', { name: 'Take the file’s over' }).isDisabled()).toBe(true);
    await dialog.getByRole('button', { name: /Keep both/ }).click();
    await page.getByText('taken in as a copy').waitFor();

    await page.reload();
    await page.locator('.ledger-name').first().click();
    await page.locator('.step-head', { hasText: 'Job' }).click();
    await page.locator('summary', { hasText: 'History' }).click();
    await page.getByText('Issue 4 went out').waitFor();
    await picture(page, 'history');
    expect(await page.locator('.history-label').allTextContents()).toEqual(
      expect.arrayContaining([expect.stringContaining('Issue 2 went out tender, 4 files')]),
    );
  });
});
