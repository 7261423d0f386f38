import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type Outcome, runFootrail } from '../../src/cli/runFootrail.ts';

const json = <Value>({ stdout }: Outcome): Value => JSON.parse(stdout) as Value;
const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-cli-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};
const sumOf = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');
const sumsIn = (folder: string) =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, sumOf(join(folder, name))]));

/** GNU coreutils' own checker, where the machine has it. */
const coreutils = '/usr/bin/sha256sum';

interface Answer {
  readonly issue: { readonly number: number; readonly purpose: string };
  readonly files: readonly { readonly path: string; readonly sha256: string }[];
}

describe('footrail issue', { timeout: 180_000 }, () => {
  it('issues under the next number, and hands out what was issued as it went out', async () => {
    const out = temporaryFolder();
    const made = json<{ project: { projectId: string }; archive: string; issue: { number: number } }>(
      await runFootrail(['demo', '--out', out, '--json']),
    );
    expect(made.issue.number).toBe(1);
    const issue = (...args: readonly string[]) =>
      runFootrail(['issue', made.project.projectId, ...args, '--archive', made.archive, '--json']);

    const preview = join(out, 'preview');
    expect(json<Answer>(await issue('--out', preview, '--dry-run', '--documents', 'schedule'))).toMatchObject(
      {
        preview: { number: 2 },
      },
    );
    expect(readFileSync(join(preview, 'manifest.json'), 'utf8')).toContain('"isRecorded": false');

    const first = join(out, 'second');
    const wanted = ['--out', first, '--for', 'construction', '--by', 'Mara', '--number', '2'];
    const issued = json<Answer>(await issue(...wanted));
    expect(issued.issue).toMatchObject({ number: 2, purpose: 'construction', issuedBy: 'Mara' });
    expect(readdirSync(first)).toHaveLength(issued.files.length);
    for (const { path, sha256 } of issued.files) expect(sumOf(path)).toBe(sha256);
    if (existsSync(coreutils))
      execFileSync(coreutils, ['--strict', '--quiet', '-c', 'SHA256SUMS'], { cwd: first });

    const again = join(out, 'again');
    expect((await issue('--reissue', '2', '--out', again)).exitCode).toBe(0);
    expect(sumsIn(again)).toEqual(sumsIn(first));
    expect(json(await issue('--verify', '2'))).toMatchObject({ number: 2, isSameProgram: true });
    expect((await issue('--verify', '2')).exitCode).toBe(0);

    const zipped = join(out, 'zipped');
    const [zip] = json<Answer>(await issue('--reissue', '2', '--zip', '--out', zipped)).files;
    const inside = unzipSync(readFileSync(zip!.path));
    const sums = Object.entries(inside).map(([path, bytes]) => [
      path.split('/')[1],
      createHash('sha256').update(bytes).digest('hex'),
    ]);
    expect(Object.fromEntries(sums)).toEqual(sumsIn(first));

    // What can't be written is not issued; a number is never guessed.
    expect(json(await issue('--out', first))).toMatchObject({
      error: { code: 'file-exists', path: '--out' },
    });
    const elsewhere = ['--out', join(out, 'third'), '--number', '7'];
    expect(json(await issue(...elsewhere))).toMatchObject({
      error: { code: 'issue-number-taken', path: '--number' },
    });
    expect(json<{ issues: unknown[] }>(await issue('--list')).issues).toHaveLength(2);
    expect(json(await issue('--reissue', '9', '--out', again))).toMatchObject({
      error: { code: 'issue-missing', path: '--reissue' },
    });
    expect(json(await issue('--reissue', '1', '--dry-run', '--out', again))).toMatchObject({
      error: { code: 'bad-arguments' },
    });
    expect(json(await issue('--out', join(out, 'x'), '--for', 'fun'))).toMatchObject({
      error: { code: 'bad-input', path: '--for' },
    });
    expect(json(await issue('--out', join(out, 'x'), '--documents', 'schedule,song'))).toMatchObject({
      error: { code: 'no-such-document', path: '--documents' },
    });

    // Nor over or through a link, even one that leads nowhere; and not where no file can be.
    const linked = join(out, 'linked');
    mkdirSync(linked);
    const elsewhereFile = join(out, 'of someone else');
    symlinkSync(elsewhereFile, join(linked, 'manifest.json'));
    expect(json(await issue('--out', linked))).toMatchObject({ error: { code: 'file-exists' } });
    expect(existsSync(elsewhereFile)).toBe(false);
    writeFileSync(join(out, 'a file'), '');
    expect(json(await issue('--out', join(out, 'a file')))).toMatchObject({
      error: { code: 'out-unwritable', path: '--out' },
    });
    expect(json<{ issues: unknown[] }>(await issue('--list')).issues).toHaveLength(2);
  });
});
