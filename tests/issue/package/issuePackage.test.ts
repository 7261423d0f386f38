import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, it, onTestFinished } from 'vitest';
import { manifestText } from '../../../src/issue/package/issueManifest.ts';
import { issueZip } from '../../../src/issue/package/issueZip.ts';
import { sha256Sums } from '../../../src/issue/package/sha256Sums.ts';

const sha256 = (bytes: Uint8Array | string) => createHash('sha256').update(bytes).digest('hex');
const hasProgram = (name: string): boolean => {
  try {
    execFileSync(name, ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    process.stdout.write(`issuePackage: ${name} is not here, its checks are skipped\n`);
    return false;
  }
};

const folderWith = (files: readonly { readonly path: string; readonly bytes: Uint8Array }[]): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-issue-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const { path, bytes } of files) writeFileSync(join(folder, path), bytes);
  return folder;
};

/** GNU coreutils' own checker. */
const coreutils = 'sha256sum';

const files = [
  { path: 'bar-plan.pdf', bytes: new Uint8Array([37, 80, 68, 70]) },
  { path: 'Café-Ä-schedule.csv', bytes: new TextEncoder().encode('mark,item\r\n') },
];
const sums = sha256Sums(files.map(({ path, bytes }) => ({ path, sha256: sha256(bytes) })));

describe('the sums of an issue', () => {
  it.skipIf(!hasProgram(coreutils))('are checked by sha256sum of GNU coreutils', () => {
    const folder = folderWith([...files, { path: 'SHA256SUMS', bytes: new TextEncoder().encode(sums) }]);
    const said = execFileSync(coreutils, ['--strict', '-c', 'SHA256SUMS'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(said.match(/: OK$/gm)).toHaveLength(2);
    writeFileSync(join(folder, 'bar-plan.pdf'), 'changed');
    expect(() =>
      execFileSync(coreutils, ['--strict', '-c', 'SHA256SUMS'], { cwd: folder, stdio: 'ignore' }),
    ).toThrow();
  });

  it('refuse what is no sum and no name', () => {
    expect(() => sha256Sums([{ path: 'a', sha256: 'x' }])).toThrow(RangeError);
    for (const path of ['', '../a', '/a', 'a\\b', 'a\nb'])
      expect(() => sha256Sums([{ path, sha256: 'a'.repeat(64) }])).toThrow(RangeError);
  });
});

describe('the zip of an issue', () => {
  it('gives the same bytes in every time zone, with the day of issue on each file', () => {
    const before = process.env['TZ'];
    onTestFinished(() => {
      if (before === undefined) delete process.env['TZ'];
      else process.env['TZ'] = before;
    });
    const zips = ['UTC', 'Pacific/Kiritimati', 'America/Sao_Paulo', 'Europe/Lisbon'].map((zone) => {
      process.env['TZ'] = zone;
      return sha256(issueZip('bar-issue-3', files, '2027-03-28T23:59:59.000Z'));
    });
    expect(new Set(zips).size).toBe(1);
    const zip = issueZip('bar-issue-3', files, '2027-03-28T23:59:59.000Z');
    // PKWARE APPNOTE 4.4.6: MS-DOS date at offset 12 of the local header: 7 bits year from 1980, 4 month, 5 day.
    const date = new DataView(zip.buffer, zip.byteOffset).getUint16(12, true);
    expect([1980 + (date >> 9), (date >> 5) & 15, date & 31]).toEqual([2027, 3, 28]);
  });

  it('holds the files in one folder, as another program reads them', () => {
    const zip = issueZip('bar-issue-3', files, '2027-03-15T09:00:00.000Z');
    const found = unzipSync(zip);
    expect(Object.keys(found)).toEqual(files.map(({ path }) => `bar-issue-3/${path}`));
    for (const { path, bytes } of files) expect(found[`bar-issue-3/${path}`]).toEqual(bytes);
    expect(() => issueZip('x', [files[0]!, files[0]!], '2027-03-15')).toThrow(RangeError);
  });

  it.skipIf(!hasProgram('python3'))('is tested sound by Python’s zipfile', () => {
    const folder = folderWith([
      { path: 'a.zip', bytes: issueZip('bar-issue-3', files, '2027-03-15T09:00:00Z') },
    ]);
    const script = 'import zipfile;z=zipfile.ZipFile("a.zip");print(z.testzip(), len(z.namelist()))';
    expect(execFileSync('python3', ['-c', script], { cwd: folder, encoding: 'utf8' }).trim()).toBe('None 2');
  });
});

describe('the manifest of an issue', () => {
  it('is JSON that says what it is', () => {
    const text = manifestText({
      project: { projectId: 'project-1', name: 'Bar', number: '27-01' },
      issue: {
        number: 3,
        revision: 'C',
        issuedAt: '2027-03-15T09:00:00.000Z',
        issuedBy: 'Mara',
        purpose: 'tender',
        projectRevision: 12,
        isRecorded: true,
      },
      madeWith: 'Footrail 0.1.0',
      inputsSha256: 'a'.repeat(64),
      files: [],
    });
    expect(JSON.parse(text)).toMatchObject({
      format: 'footrail-issue',
      formatVersion: 1,
      issue: { number: 3 },
    });
    expect(text.endsWith('}\n')).toBe(true);
  });
});
