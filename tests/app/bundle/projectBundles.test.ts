import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { manifestSchema } from '../../../src/app/bundle/bundleFormat.ts';
import type { ProjectId } from '../../../src/document/ids.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { apiForTest } from '../portsForTest.ts';
import { bundledProject, walkZip } from './bundledProject.ts';

const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

describe('a project file', () => {
  it('is a ZIP archive whose manifest names every other entry with its length and SHA-256', async () => {
    const { file, plan, projectId } = await bundledProject();
    const entries = walkZip(file.bytes);
    const manifest = manifestSchema.parse(JSON.parse(entries.get('manifest.json')!.toString('utf8')));
    expect(manifest).toMatchObject({
      format: 'footrail-project',
      formatVersion: 2,
      issued: 'whole',
      project: { projectId },
    });
    expect(manifest.entries.map(({ path }) => path).sort()).toEqual(
      [...entries.keys()].filter((name) => name !== 'manifest.json').sort(),
    );
    for (const { path, byteLength, sha256 } of manifest.entries) {
      expect(entries.get(path)).toHaveLength(byteLength);
      expect(sha256Of(entries.get(path)!)).toBe(sha256);
    }
    expect(Buffer.from(plan).equals(entries.get(`plans/${sha256Of(plan)}.pdf`)!)).toBe(true);
  });

  it('is found whole by an archiver, where there is one on this machine', async () => {
    const { file } = await bundledProject();
    const folder = mkdtempSync(join(tmpdir(), 'footrail-bundle-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    writeFileSync(join(folder, 'project.zip'), file.bytes);
    const tested = spawnSync('unzip', ['-t', join(folder, 'project.zip')], { encoding: 'utf8' });
    if (tested.error) {
      process.stdout.write('\nno unzip here: the project file was not tried with it\n');
      return;
    }
    expect(tested.stdout).toContain('No errors detected');
    expect(tested.status).toBe(0);
  });

  it('brings the project over with its changes, its undo steps and its plan', async () => {
    const from = await bundledProject();
    const to = apiForTest();
    const { projectId } = from;
    expect(await to.done('import-project', { bytes: from.file.bytes })).toEqual({
      projectId,
      name: 'Mezzanine',
      outcome: 'taken-in',
      issuesAdded: 0,
    });
    expect(await to.done('open-project', { projectId })).toEqual(
      await from.done('open-project', { projectId }),
    );
    expect(await to.done('project-history', { projectId })).toEqual(
      await from.done('project-history', { projectId }),
    );
    expect((await to.done('plan-bytes', { sha256: sha256Of(from.plan) })).bytes).toEqual(from.plan);
    expect((await to.done('undo', { projectId, revision: from.revision })).undoLabel).not.toBeNull();
  });

  it('changes nothing when it is taken in again', async () => {
    const from = await bundledProject();
    const to = apiForTest();
    const { projectId } = from;
    const bytes = from.file.bytes;
    await to.done('import-project', { bytes });
    const before = [await to.done('list-projects', {}), await to.done('project-history', { projectId })];
    for (const place of [to, from])
      expect(await place.done('import-project', { bytes })).toMatchObject({
        projectId,
        outcome: 'there-already',
      });
    expect([await to.done('list-projects', {}), await to.done('project-history', { projectId })]).toEqual(
      before,
    );
  });

  it('leaves a project that has gone on as it is', async () => {
    const { done, projectId, revision, file } = await bundledProject();
    const command = { type: 'change-job' as const, changes: { client: 'Salt Lane' } };
    await done('apply-command', { projectId, revision, command });
    expect(await done('import-project', { bytes: file.bytes })).toMatchObject({ outcome: 'there-already' });
    expect((await done('open-project', { projectId })).document.job.client).toBe('Salt Lane');
  });

  it('is refused where this archive’s project went another way, and comes in as a copy when asked', async () => {
    const { api, done, projectId, revision, file } = await bundledProject();
    await done('undo', { projectId, revision });
    const later = await done('export-project', { projectId });
    const other = apiForTest({ freshId: () => 'elsewhere' });
    await other.done('import-project', { bytes: file.bytes });
    await other.done('apply-command', {
      projectId,
      revision,
      command: { type: 'change-job', changes: { client: 'Northgate' } },
    });
    expect(await other.api.call('import-project', { bytes: later.bytes })).toMatchObject({
      ok: false,
      error: { code: 'bundle-project-differs' },
    });
    const copy = await other.done('import-project', { bytes: later.bytes, choice: 'copy' });
    expect(copy).toMatchObject({ outcome: 'taken-in-as-copy', name: 'Mezzanine (copy)' });
    expect(copy.projectId).not.toBe(projectId);
    expect((await other.done('list-projects', {})).projects).toHaveLength(2);
    expect(await api.call('open-project', { projectId: copy.projectId })).toMatchObject({ ok: false });
  });

  it('is refused where this archive has other pieces under the same name and version', async () => {
    const { file } = await bundledProject();
    const other = apiForTest();
    const [piece, ...rest] = demoRange.items;
    await other.ports.store.putStockRange(
      { ...demoRange, items: [{ ...piece!, name: 'Another' }, ...rest] },
      '',
    );
    expect(await other.api.call('import-project', { bytes: file.bytes })).toMatchObject({
      ok: false,
      error: { code: 'bundle-stock-range-differs' },
    });
    expect((await other.done('list-projects', {})).projects).toEqual([]);
    expect(await other.ports.store.getPlan(sha256Of((await bundledProject()).plan))).toBeNull();
  });
});

describe('the history of a project', () => {
  it('says who did what and when, undone and done again too', async () => {
    const { done, projectId } = await bundledProject();
    const { changes } = await done('project-history', { projectId });
    expect(changes.map(({ kind, label, by }) => [kind, label, by])).toEqual([
      ['command', 'Add a sheet', 'mara'],
      ...Array(3).fill(['command', 'Change the job’s particulars', 'mara']),
      ...Array(2).fill(['undo', 'Change the job’s particulars', 'mara']),
      ['redo', 'Change the job’s particulars', 'mara'],
    ]);
    expect(changes.map(({ revision }) => revision)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(changes.every(({ at }) => !Number.isNaN(Date.parse(at)))).toBe(true);
  });

  it.each([
    [0, '', 0],
    [1, '', 1],
    [2, 'Quay 7', 1],
    [4, 'Quay 9', 1],
    [6, 'Quay 7', 1],
    [7, 'Quay 8', 1],
  ])(
    'gives a copy as it was after change %i, and leaves the project alone',
    async (revision, site, sheets) => {
      const { done, projectId } = await bundledProject();
      const before = await done('open-project', { projectId });
      const copy = await done('copy-project-at', { projectId, revision });
      const { document, revision: changes } = await done('open-project', { projectId: copy.projectId });
      expect(document.job).toMatchObject({ site, name: 'Mezzanine (copy)' });
      expect(document.sheetIds).toHaveLength(sheets);
      expect(changes).toBe(revision + 1);
      expect(await done('open-project', { projectId })).toEqual(before);
      // The copy's own steps can be taken back to the beginning.
      for (let at = changes; ; at += 1) {
        const opened = await done('open-project', { projectId: copy.projectId });
        if (opened.undoLabel === null) break;
        await done('undo', { projectId: copy.projectId, revision: at });
      }
    },
  );

  it('has no copy of a change that there was not, nor of a project that is not', async () => {
    const { api, projectId } = await bundledProject();
    expect(await api.call('copy-project-at', { projectId, revision: 8 })).toMatchObject({
      error: { code: 'no-such-change' },
    });
    for (const method of ['copy-project-at', 'project-history', 'export-project'])
      expect(
        await api.call(method, {
          projectId: 'project-nowhere' as ProjectId,
          ...(method === 'copy-project-at' ? { revision: 0 } : {}),
        }),
      ).toMatchObject({ error: { code: 'project-missing' } });
  });
});
