import { win32 } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileNameFor } from '../../../src/app/exports.ts';
import { issueZip } from '../../../src/issue/package/issueZip.ts';
import { portableName } from '../../../src/issue/package/portableName.ts';

describe('a name out of an archive', () => {
  it.each([
    ['bar-plan.pdf', 'bar-plan.pdf'],
    ['Café-Ä-schedule.csv', 'Café-Ä-schedule.csv'],
    ['工程-plan.pdf', '工程-plan.pdf'],
    ['../../x', '..-..-x'],
    ['..\\..\\x.pdf', '..-..-x.pdf'],
    ['/etc/passwd', '-etc-passwd'],
    ['C:\\x', 'C--x'],
    ['x.pdf:stream', 'x.pdf-stream'],
    ['CON', '-CON'],
    ['com1.pdf', '-com1.pdf'],
    ['console.pdf', 'console.pdf'],
    ['x.pdf... ', 'x.pdf'],
    ['..', 'file'],
    ['', 'file'],
    ['plan\u202efdp.exe', 'plan-fdp.exe'],
    ['a\0b', 'a-b'],
    ['\ud800.pdf', '-.pdf'],
    [`${'a'.repeat(300)}.pdf`, `${'a'.repeat(116)}.pdf`],
    ['👩‍🍳'.repeat(100), [...'👩‍🍳'.repeat(40)].join('')],
  ])('%j is written as %j', (name, written) => {
    expect(portableName(name)).toBe(written);
    // Node's own reading of Windows paths: one part, no folder, no drive.
    expect(win32.basename(portableName(name))).toBe(portableName(name));
    expect(Buffer.byteLength(portableName(name))).toBeLessThanOrEqual(4 * 120);
  });

  it.each(['../x', 'a/b', 'a\\b', '..', '.', '', 'a\0'])('%j does not get into a ZIP archive', (path) => {
    expect(() => issueZip('issue-1', [{ path, bytes: new Uint8Array(1) }], '2027-03-15')).toThrow(RangeError);
  });
});

describe('a file’s name from a project’s', () => {
  it.each([
    'Bar',
    '한국어 '.repeat(60),
    '工'.repeat(300),
    '𠮷'.repeat(300),
    'ß'.repeat(300),
    '\ud800',
    '../../',
  ])('of %j fits any file system with its ending, in whole characters', (name) => {
    const given = fileNameFor(name, 'setting-out.pdf');
    // NAME_MAX of Linux file systems, with room for the number of a second one.
    expect(Buffer.byteLength(given)).toBeLessThanOrEqual(250);
    expect(given).not.toMatch(/\p{Cs}/u);
    expect(portableName(given)).toBe(given);
  });
});
