import { afterEach, describe, expect, it } from 'vitest';
import { apiMethodNames } from '../../electron/ipc/apiMethodNames.ts';
import { channels } from '../../electron/ipc/channels.ts';
import { apiMethods } from '../../src/app/apiMethods.ts';
import { removeFolders, startShellUnderTest } from './shellUnderTest.ts';

afterEach(removeFolders);

const ourPage = { url: 'app://footrail/index.html', parent: null };

describe('calls through preload and main process', () => {
  it('knows the methods of the API and no others', () => {
    expect([...apiMethodNames].sort()).toEqual(Object.keys(apiMethods).sort());
  });

  it('puts exactly the named functions on the page, frozen, and nothing of Electron', async () => {
    const { contents, bridge } = await startShellUnderTest();
    expect(Object.keys(contents.exposed)).toEqual(['footrail']);
    expect(Object.keys(bridge).sort()).toEqual([
      'api',
      'offerMenuChoices',
      'onMenuChoice',
      'pickPlan',
      'saveFile',
    ]);
    expect(Object.keys(bridge.api).sort()).toEqual(Object.keys(apiMethods).sort());
    expect(Object.isFrozen(bridge)).toBe(true);
    expect(Object.isFrozen(bridge.api)).toBe(true);
  });

  it('carries every method to the API under its own name and brings its answer back', async () => {
    const { api, bridge } = await startShellUnderTest();
    api.answer = async (method) => ({ ok: true, value: { method } });
    for (const method of apiMethodNames) {
      expect(await bridge.api[method]({ from: method }).answer).toEqual({ ok: true, value: { method } });
    }
    expect(api.calls).toEqual(apiMethodNames.map((method) => ({ method, input: { from: method } })));
  });

  it('carries bytes both ways as copies', async () => {
    const { api, bridge } = await startShellUnderTest();
    api.answer = async (_method, input) => {
      const { bytes } = input as { bytes: Uint8Array };
      return { ok: true, value: { fileName: 'plan.pdf', bytes: bytes.map((byte) => byte + 1) } };
    };
    const bytes = Uint8Array.of(37, 80, 68, 70);
    const answer = await bridge.api['take-in-plan']({ fileName: 'plan.pdf', bytes }).answer;
    expect(answer).toEqual({
      ok: true,
      value: { fileName: 'plan.pdf', bytes: Uint8Array.of(38, 81, 69, 71) },
    });
    expect((api.calls[0]!.input as { bytes: Uint8Array }).bytes).not.toBe(bytes);
  });

  it("brings the API's refusals back as values", async () => {
    const { api, bridge } = await startShellUnderTest();
    const error = { code: 'no-such-project', message: 'There is no such project.', path: 'projectId' };
    api.answer = async () => ({ ok: false, error });
    expect(await bridge.api['open-project']({ projectId: 'p' }).answer).toEqual({ ok: false, error });
  });

  it('tells how far a call is, to that call only, and no more once it is answered', async () => {
    const { api, bridge, contents } = await startShellUnderTest();
    api.answer = async (method, _input, { onProgress }) => {
      onProgress?.(1, 2);
      return { ok: true, value: method };
    };
    const seen: unknown[] = [];
    const loud = bridge.api['read-sheet']({}, (done, of) => seen.push([done, of]));
    await bridge.api['app-info']({}).answer;
    await loud.answer;
    expect(seen).toEqual([[1, 2]]);
    contents.send(channels.progress, { callId: 1, done: 2, of: 2 });
    expect(seen).toHaveLength(1);
  });

  it('cancels one call and leaves the others', async () => {
    const { api, bridge } = await startShellUnderTest();
    api.answer = (method, _input, { signal }) =>
      new Promise((resolve) => {
        if (method === 'app-info') setTimeout(() => resolve({ ok: true, value: 'done' }), 20);
        signal?.addEventListener('abort', () =>
          resolve({ ok: false, error: { code: 'cancelled', message: 'Cancelled.' } }),
        );
      });
    const reading = bridge.api['read-sheet']({});
    const other = bridge.api['app-info']({});
    reading.cancel();
    expect(await reading.answer).toMatchObject({ ok: false, error: { code: 'cancelled' } });
    expect(await other.answer).toEqual({ ok: true, value: 'done' });
  });

  it('ends calls of a page that is shown anew, and lets the new one count from 1', async () => {
    const { api, contents } = await startShellUnderTest();
    let ended = 0;
    api.answer = (method, _input, { signal }) =>
      method === 'app-info'
        ? Promise.resolve({ ok: true, value: 'fresh' })
        : new Promise((resolve) => {
            signal?.addEventListener('abort', () => {
              ended += 1;
              resolve({ ok: false, error: { code: 'cancelled', message: 'Cancelled.' } });
            });
          });
    const old = contents.invokeFrom(ourPage, channels.call, { callId: 1, method: 'fit', input: {} });
    contents.reload();
    const fresh = contents.invokeFrom(ourPage, channels.call, { callId: 1, method: 'app-info', input: {} });
    expect(await fresh).toEqual({ ok: true, value: 'fresh' });
    await old;
    expect(ended).toBe(1);
  });

  it('turns a main process that does not answer into an error value', async () => {
    const { api, bridge } = await startShellUnderTest();
    api.answer = async () => ({ ok: true, value: () => 'a function cannot be cloned' });
    expect(await bridge.api['app-info']({}).answer).toMatchObject({
      ok: false,
      error: { code: 'shell-unreachable' },
    });
  });
});

describe('calls that are not the page’s own', () => {
  const call = { callId: 1, method: 'list-projects', input: {} };

  it.each([
    ['another web page', { url: 'https://example.org/app://footrail/index.html', parent: null }],
    ['a host that only begins alike', { url: 'app://footrail.example.org/index.html', parent: null }],
    ['our name as a user name', { url: 'app://footrail@example.org/', parent: null }],
    ['a file', { url: 'file:///tmp/index.html', parent: null }],
    ['a blank page', { url: 'about:blank', parent: null }],
    ['data', { url: 'data:text/html,app://footrail/', parent: null }],
    ['a frame inside our page', { url: 'app://footrail/index.html', parent: {} }],
    ['a frame that is gone', null],
    ['an address that is none', { url: '', parent: null }],
  ])('are refused from %s, on every channel', async (_name, frame) => {
    const { api, contents, dialog } = await startShellUnderTest();
    for (const [channel, payload] of [
      [channels.call, call],
      [channels.pickPlan, undefined],
      [channels.saveFile, { fileName: 'a.csv', bytes: new Uint8Array() }],
    ] as const) {
      expect(await contents.invokeFrom(frame, channel, payload)).toMatchObject({
        ok: false,
        error: { code: 'untrusted-sender' },
      });
    }
    expect(api.calls).toEqual([]);
    expect(dialog.shown).toEqual([]);
  });

  it('are refused from another window, even one at our address', async () => {
    const { api, main, windows } = await startShellUnderTest();
    const other = new main.BrowserWindow({ webPreferences: { preload: '/preload.cjs' } });
    await other.loadURL('app://footrail/index.html');
    const answer = await windows[1]!.webContents.invokeFrom(ourPage, channels.call, call);
    expect(answer).toMatchObject({ ok: false, error: { code: 'untrusted-sender' } });
    expect(api.calls).toEqual([]);
  });

  it('cannot cancel what the page asked for', async () => {
    const { api, contents, bridge } = await startShellUnderTest();
    let aborted = false;
    api.answer = async (_method, _input, { signal }) => {
      contents.sendFrom({ url: 'https://example.org/', parent: null }, channels.cancel, { callId: 1 });
      contents.sendFrom(ourPage, channels.cancel, { callId: 'one' });
      contents.sendFrom(ourPage, channels.cancel, null);
      aborted = signal?.aborted ?? false;
      return { ok: true, value: {} };
    };
    await bridge.api['app-info']({}).answer;
    expect(aborted).toBe(false);
  });

  it.each([
    ['nothing', undefined],
    ['text', 'list-projects'],
    ['an unknown method', { callId: 1, method: 'run-program', input: {} }],
    ['a name that every object has', { callId: 1, method: 'constructor', input: {} }],
    ['a method in a list', { callId: 1, method: ['fit'], input: {} }],
    ['no number', { method: 'fit', input: {} }],
    ['a number that is no count', { callId: 0.5, method: 'fit', input: {} }],
    ['something more', { callId: 1, method: 'fit', input: {}, channel: 'x' }],
  ])('do not reach the API with %s', async (_name, payload) => {
    const { api, contents } = await startShellUnderTest();
    expect(await contents.invokeFrom(ourPage, channels.call, payload)).toMatchObject({
      ok: false,
      error: { code: 'bad-call' },
    });
    expect(api.calls).toEqual([]);
  });

  it('cannot take the number of a call under way', async () => {
    const { api, contents } = await startShellUnderTest();
    let finish = (): void => {};
    api.answer = () =>
      new Promise((resolve) => {
        finish = () => resolve({ ok: true, value: 'first' });
      });
    const first = contents.invokeFrom(ourPage, channels.call, call);
    expect(await contents.invokeFrom(ourPage, channels.call, call)).toMatchObject({
      error: { code: 'bad-call' },
    });
    finish();
    expect(await first).toEqual({ ok: true, value: 'first' });
  });
});
