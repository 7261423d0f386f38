import { execFile, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, cpSync, existsSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openArchive } from '../../src/archive/openArchive.ts';
import { asStoreError } from '../../src/archive/storeErrors.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { type Edited, edit, fixedNow, newProject, projectIdOf } from './editedSteps.ts';

const run = promisify(execFile);
const scriptOf = (name: string): string => fileURLToPath(new URL(`./${name}.ts`, import.meta.url));
/** Root may write anywhere, so there the process runs as the user "nobody" (65534 on Linux). */
const withoutRights = (folder: string): unknown => {
  const nobody = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
  const { stdout, stderr } = spawnSync(process.execPath, [scriptOf('protectedProcess'), folder], {
    encoding: 'utf8',
    ...nobody,
  });
  if (stderr !== '') throw new Error(stderr);
  return JSON.parse(stdout);
};

describe('two processes on one archive', () => {
  it('lose no update: each conflict is answered as one', { timeout: 120_000 }, async () => {
    const folder = temporaryFolder();
    const { store } = await openForTest(folder);
    const project = await newProject(store, projectIdOf(1));
    const each = 40;
    const counted = await Promise.all(
      [1, 2, 3].map(() => run(process.execPath, [scriptOf('countingProcess'), folder, String(each)])),
    );
    const after = await store.loadProject(projectIdOf(1));
    expect(after?.revision).toBe(project.revision + 3 * each);
    expect(after?.document).toMatchObject({ job: { number: String(3 * each) } });
    const conflicts = counted.reduce((sum, { stdout }) => sum + Number(stdout), 0);
    expect(conflicts).toBeGreaterThan(0);
  });

  it('see it sound at every moment, however fast the other writes', { timeout: 120_000 }, async () => {
    const folder = temporaryFolder();
    const child = spawn(process.execPath, [scriptOf('editingProcess'), folder, '1'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    onTestFinished(() => {
      child.kill('SIGKILL');
    });
    const started = once(child.stdout, 'data');
    child.stdout.resume();
    await started;
    let lastRevision = -1;
    for (let look = 0; look < 60; look += 1) {
      const archive = await openArchive({ folder, now: fixedNow });
      const seen = { ...archive.health(), listed: (await archive.store.listProjects()).length <= 1 };
      const revision = (await archive.store.loadProject(projectIdOf(1)))?.revision ?? 0;
      archive.close();
      expect(seen, `look ${look}`).toEqual({
        state: 'sound',
        problems: [],
        notices: [],
        advice: '',
        listed: true,
      });
      expect(revision).toBeGreaterThanOrEqual(lastRevision);
      lastRevision = revision;
    }
    expect(lastRevision).toBeGreaterThan(0);
  });

  it('make a new archive together', { timeout: 120_000 }, async () => {
    const folder = temporaryFolder();
    const opened = await Promise.all(
      [1, 2, 3, 4].map(() => run(process.execPath, [scriptOf('countingProcess'), folder, '0'])),
    );
    expect(opened.map(({ stderr }) => stderr)).toEqual(['', '', '', '']);
    const archive = await openForTest(folder);
    expect((await archive.check()).problems).toEqual([]);
  });
});

describe('an archive', () => {
  it('on a full disk takes no change, keeps all before it, and goes on when there is room', async () => {
    if (process.platform === 'win32') return;
    const folder = temporaryFolder();
    // A limit on the size of files stands in for the disk: 2000 blocks of 1024 bytes.
    const limited = `trap '' XFSZ; ulimit -f 2000; exec "$0" "$1" "$2"`;
    const child = spawnSync('bash', ['-c', limited, process.execPath, scriptOf('fillingProcess'), folder], {
      encoding: 'utf8',
    });
    expect(child.stderr).toBe('');
    const { accepted, code, stillReads, state } = JSON.parse(child.stdout) as Record<string, unknown>;
    expect(code).toMatch(/^archive-(full|unreadable)$/);
    expect(accepted).toBeGreaterThan(0);
    expect({ stillReads, state }).toEqual({ stillReads: true, state: 'sound' });
    const archive = await openForTest(folder);
    expect(await archive.check()).toMatchObject({ problems: [], plans: accepted });
    await edit(archive.store, (await archive.store.loadProject(projectIdOf(1))) as Edited, 3, 1);
  });

  it('whose database is full says so', async () => {
    const folder = temporaryFolder();
    const { store, path, health } = await openForTest(folder, { lockWaitMs: 50 });
    await newProject(store, projectIdOf(1));
    const full = new Database(path);
    full.pragma('max_page_count = 1');
    let error: unknown;
    try {
      full.exec('CREATE TABLE large (a); INSERT INTO large VALUES (zeroblob(10000000))');
    } catch (thrown) {
      error = thrown;
    }
    full.close();
    expect(asStoreError(error)).toMatchObject({ code: 'archive-full' });
    expect(health().state).toBe('sound');
  });

  it('that another program keeps locked says so, changes nothing, and goes on afterwards', async () => {
    const folder = temporaryFolder();
    const { store, path } = await openForTest(folder, { lockWaitMs: 50 });
    const project = await newProject(store, projectIdOf(1));
    const other = new Database(path);
    other.exec('BEGIN IMMEDIATE');
    await expect(edit(store, project, 1, 1)).rejects.toMatchObject({ code: 'archive-busy' });
    expect((await store.loadProject(projectIdOf(1)))?.revision).toBe(0);
    other.exec('ROLLBACK');
    other.close();
    expect((await edit(store, project, 1, 1)).revision).toBe(1);
  });

  it.each(['moved', 'replaced', 'deleted', 'without its log'])('that was %s takes no change', async (how) => {
    const folder = temporaryFolder();
    const { store, path } = await openForTest(folder);
    const project = await edit(store, await newProject(store, projectIdOf(1)), 3, 1);
    const elsewhere = join(folder, 'elsewhere.sqlite');
    if (how === 'moved') renameSync(path, elsewhere);
    if (how === 'replaced') {
      cpSync(path, elsewhere);
      renameSync(elsewhere, path);
    }
    if (how === 'deleted') rmSync(path);
    if (how === 'without its log') rmSync(`${path}-wal`);
    await expect(edit(store, project, 1, 2)).rejects.toMatchObject({ code: 'archive-moved' });
  });

  it('whose clock was set back says so, takes every change, and keeps their order', async () => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    const project = await edit(first.store, await newProject(first.store, projectIdOf(1)), 3, 1);
    await first.backUp();
    first.close();
    const early = () => '2001-02-03T04:05:06.000Z';
    const archive = await openForTest(folder, { now: early });
    expect(archive.health()).toMatchObject({ state: 'sound', problems: [] });
    expect(archive.health().notices).toEqual([expect.stringContaining('clock says 2001-02-03')]);
    const { revision } = await edit(archive.store, project, 4, 2);
    expect((await archive.store.loadProject(projectIdOf(1)))?.revision).toBe(revision);
    expect((await archive.backUp())?.number).toBe(2);
    expect((await archive.check()).problems).toEqual([]);
    archive.close();
    expect((await openForTest(folder)).health().notices).toEqual([]);
  });

  it('that is closed says so', async () => {
    const archive = await openForTest(temporaryFolder());
    archive.close();
    archive.close();
    await expect(archive.store.listProjects()).rejects.toMatchObject({ code: 'archive-closed' });
    await expect(archive.backUp()).rejects.toMatchObject({ code: 'archive-closed' });
  });

  it('in the place of a file is refused', async () => {
    const file = join(temporaryFolder(), 'file');
    writeFileSync(file, '');
    await expect(openForTest(file)).rejects.toThrow();
    expect(existsSync(file)).toBe(true);
  });

  it.skipIf(process.platform === 'win32')('in a write-protected folder is read and not written', async () => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    await edit(first.store, await newProject(first.store, projectIdOf(1)), 5, 1);
    first.close();
    chmodSync(first.path, 0o444);
    chmodSync(folder, 0o555);
    const found = withoutRights(folder);
    chmodSync(folder, 0o755);
    expect(found).toEqual({
      open: 'done',
      state: 'read-only',
      revision: 5,
      write: 'archive-read-only',
      backUp: 'archive-read-only',
    });
  });

  it.skipIf(process.platform === 'win32')('that can’t be made says so', () => {
    const folder = temporaryFolder();
    chmodSync(folder, 0o555);
    expect(withoutRights(folder)).toEqual({ open: 'archive-read-only' });
    expect(withoutRights(join(folder, 'new'))).toEqual({ open: 'archive-read-only' });
    chmodSync(folder, 0o755);
  });
});

describe('what the system says', () => {
  it.each([
    ['ENOSPC', 'archive-full'],
    ['EROFS', 'archive-read-only'],
    ['EACCES', 'archive-read-only'],
    ['EIO', 'archive-unreadable'],
  ])('%s becomes %s', (code, expected) => {
    expect(asStoreError(Object.assign(new Error('x'), { code }))).toMatchObject({ code: expected });
  });

  it('that is not about the archive stays what it is', () => {
    expect(asStoreError(new TypeError('a fault'))).toBeNull();
  });
});
