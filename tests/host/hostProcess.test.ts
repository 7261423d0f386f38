import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, onTestFinished } from 'vitest';
import { archivePathOf } from '../../src/archive/openArchive.ts';

const inProject = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));
const isRendererBuilt = existsSync(inProject('build/out/renderer/index.html'));
if (!isRendererBuilt) process.stdout.write('host process: the renderer is not built here, left out\n');

const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-host-process-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

const start = (args: readonly string[]) => {
  const child = spawn(process.execPath, [inProject('src/host/main.ts'), ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  const output = { stdout: '', stderr: '' };
  child.stdout.on('data', (chunk: Buffer) => {
    output.stdout += chunk.toString();
  });
  child.stderr.on('data', (chunk: Buffer) => {
    output.stderr += chunk.toString();
  });
  const ended = once(child, 'close') as Promise<[number | null, string | null]>;
  return { child, output, ended };
};

describe.skipIf(!isRendererBuilt)('the host’s process', () => {
  it('opens the demo project, serves it, keeps what is changed, backs up, and ends when asked', async () => {
    const folder = temporaryFolder();
    const { child, output, ended } = start(['--archive', folder, '--demo', '--port', '0']);
    while (!output.stdout.includes('Ctrl+C'))
      await Promise.race([
        once(child.stdout, 'data'),
        ended.then(() => Promise.reject(new Error(output.stderr))),
      ]);
    const [, url = ''] = /Footrail is at (\S+)/.exec(output.stdout) ?? [];
    const { origin, hash } = new URL(url);
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?token=[A-Za-z0-9_-]{43}#project=project-[a-z0-9]+$/);

    const entered = await fetch(url, { redirect: 'manual' });
    expect(entered.status).toBe(303);
    const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? '';
    const call = async (method: string, input: unknown) => {
      const response = await fetch(`${origin}/api/${method}`, {
        method: 'POST',
        headers: { cookie, origin, 'content-type': 'application/json' },
        body: JSON.stringify(input),
      });
      return { status: response.status, value: (await response.json()) as Record<string, unknown> };
    };
    const page = await fetch(`${origin}/`, { headers: { cookie } });
    expect(await page.text()).toContain('<title>Footrail</title>');

    const projectId = hash.replace('#project=', '');
    const { value: project } = await call('open-project', { projectId });
    const command = { type: 'change-job', changes: { site: 'Quay 7' } };
    const revision = project['revision'] as number;
    expect((await call('apply-command', { projectId, revision, command })).status).toBe(200);
    const late = await call('apply-command', { projectId, revision, command });
    expect(late).toMatchObject({ status: 409, value: { error: { code: 'revision-conflict' } } });
    expect((await call('apply-command', { projectId, revision: -1, command })).status).toBe(400);

    child.kill('SIGTERM');
    expect(await ended).toEqual([0, null]);
    expect(output.stderr).toBe('');
    expect(existsSync(archivePathOf(folder))).toBe(true);
    expect(existsSync(`${archivePathOf(folder)}-wal`)).toBe(false);
    expect(existsSync(join(folder, 'backups'))).toBe(true);
  });

  it('says in a line why it can’t start', async () => {
    const wrong = start(['--port', 'x']);
    expect(await wrong.ended).toEqual([2, null]);
    expect(wrong.output.stderr).toContain('"x" is not a port');
    const nowhere = start(['--archive', '/dev/null/archive']);
    expect(await nowhere.ended).toEqual([2, null]);
    expect(nowhere.output.stderr).toMatch(/^Footrail could not start: .+\n$/);
  });
});
