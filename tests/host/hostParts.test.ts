import { describe, expect, it } from 'vitest';
import { defaultArchiveFolder } from '../../src/host/archiveFolder.ts';
import { createFreshIds } from '../../src/host/freshIds.ts';
import { parseHostArguments } from '../../src/host/hostArguments.ts';
import { openBrowser } from '../../src/host/openBrowser.ts';
import { parseWireJson } from '../../src/host/parseWireJson.ts';
import { createRequestRate } from '../../src/host/requestRate.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const codeOf = (text: Uint8Array): string => {
  const parsed = parseWireJson(text);
  return parsed.ok ? 'ok' : parsed.error.code;
};

describe('fresh ids', () => {
  it('sort in the order they were made, also where the clock stands still or is set back', () => {
    const times = [5000, 5000, 7000, 6000, 6000, 1, 9000];
    const freshId = createFreshIds(() => times.shift() ?? 9000);
    const ids = Array.from({ length: 2000 }, freshId);
    expect([...ids].sort()).toEqual(ids);
    expect(new Set(ids).size).toBe(2000);
    for (const id of ids) expect(id).toMatch(/^[a-z0-9]{1,40}$/);
  });

  it('go on after the last serial number of a millisecond', () => {
    const freshId = createFreshIds(() => 1);
    let last = '';
    for (let count = 0; count < 36 ** 4 + 10; count += 1) {
      const id = freshId();
      if (id <= last) throw new Error(`${id} after ${last}`);
      last = id;
    }
    expect(last.slice(0, 9)).toBe('000000002');
  });
});

describe('JSON over the wire', () => {
  it.each(
    [
      ['an object', '{"a":[1,{"b":null}]}', 'ok'],
      ['the word as a text', '"__proto__"', 'ok'],
      ['a harmless key', '{"constructor":1}', 'ok'],
      ['nothing', '', 'malformed-json'],
      ['a part', '{', 'malformed-json'],
      ['a bracket too many', '{"a":1}}', 'malformed-json'],
      ['a prototype key', '{"__proto__":{"isAdmin":true}}', 'forbidden-key'],
      ['a prototype key in other letters', '{"a":[{"\\u005f_proto__":1}]}', 'forbidden-key'],
      ['100 levels', `${'['.repeat(100)}${']'.repeat(100)}`, 'ok'],
      ['101 levels', `${'['.repeat(101)}${']'.repeat(101)}`, 'too-deep'],
      ['half a million lists', `${'['.repeat(500_000)}${']'.repeat(500_000)}`, 'too-deep'],
      ['300,000 objects', `${'{"a":'.repeat(300_000)}1${'}'.repeat(300_000)}`, 'too-deep'],
    ].map(([name, text, code]) => ({ name, text, code })),
  )('of $name is $code', ({ text = '', code }) => {
    expect(codeOf(bytes(text))).toBe(code);
  });

  it('must be UTF-8', () => {
    expect(codeOf(Uint8Array.of(0x22, 0xc3, 0x28, 0x22))).toBe('malformed-json');
  });
});

describe('the request rate', () => {
  it('lets a burst through, then so many a second', () => {
    let now = 0;
    const mayAsk = createRequestRate({ burst: 3, perSecond: 2 }, () => now);
    expect([mayAsk(), mayAsk(), mayAsk(), mayAsk()]).toEqual([true, true, true, false]);
    now = 500;
    expect([mayAsk(), mayAsk()]).toEqual([true, false]);
    now = 60_000;
    expect([mayAsk(), mayAsk(), mayAsk(), mayAsk()]).toEqual([true, true, true, false]);
  });
});

describe('the archive folder', () => {
  const at = (platform: NodeJS.Platform, environment: Record<string, string>) =>
    defaultArchiveFolder({ platform, environment, home: '/home/ada' });

  it('is the one named in the environment, else where the system keeps a program’s data', () => {
    expect(at('linux', { FOOTRAIL_ARCHIVE: '/jobs' })).toBe('/jobs');
    expect(at('linux', {})).toBe('/home/ada/.local/share/footrail/archive');
    expect(at('linux', { XDG_DATA_HOME: '/data' })).toBe('/data/footrail/archive');
    expect(at('darwin', {})).toBe('/home/ada/Library/Application Support/Footrail/archive');
    expect(at('win32', { LOCALAPPDATA: '/local' })).toBe('/local/Footrail/archive');
  });
});

describe('the arguments of the host', () => {
  it('are read, and refused with the reason', () => {
    expect(parseHostArguments(['--archive', '/jobs', '--demo', '--port', '8123'])).toEqual({
      ok: true,
      value: { archiveDir: '/jobs', demo: true, open: false, port: 8123 },
    });
    for (const args of [['--port', '70000'], ['--port', '1e3'], ['--nonsense'], ['stray']])
      expect(parseHostArguments(args)).toMatchObject({ ok: false });
  });
});

describe('opening a browser', () => {
  it('is not tried where there is no display', async () => {
    expect(await openBrowser('http://127.0.0.1:1/', 'linux', {})).toBe(false);
  });
});
