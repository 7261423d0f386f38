import { afterEach, describe, expect, it } from 'vitest';
import { removeFolders, startShellUnderTest } from './shellUnderTest.ts';

afterEach(removeFolders);

describe('the page’s window', () => {
  it('is sandboxed and isolated, without Node, and knows its preload', async () => {
    const { window, record } = await startShellUnderTest();
    expect(window.settings['webPreferences']).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      webviewTag: false,
      preload: '/preload.cjs',
    });
    expect(record.sandboxed).toBe(true);
  });

  it('is set up before Electron is ready where that is needed', async () => {
    const { record } = await startShellUnderTest();
    expect(record.log.indexOf('registerSchemesAsPrivileged')).toBeLessThan(record.log.indexOf('ready'));
    expect(record.log.indexOf('enableSandbox')).toBeLessThan(record.log.indexOf('ready'));
    expect(record.privilegedSchemes.map(({ scheme }) => scheme)).toEqual(['app']);
    expect(record.privilegedSchemes[0]?.privileges).not.toHaveProperty('bypassCSP');
  });

  it.each([
    'https://example.org/',
    'http://localhost:3000/app://footrail/',
    'file:///etc/passwd',
    'javascript:alert(1)',
    'data:text/html,<p>x',
    'about:blank',
    'app://footrail/other.html',
    'app://elsewhere/index.html',
  ])('never goes to %s, opens it, or is sent there', async (address) => {
    const { contents } = await startShellUnderTest();
    expect(contents.canNavigate(address)).toBe(false);
    expect(contents.canNavigate(address, false)).toBe(false);
    expect(contents.canBeRedirected(address)).toBe(false);
    expect(contents.canOpenWindow(address)).toBe(false);
  });

  it('may be shown again where it is', async () => {
    const { contents } = await startShellUnderTest();
    expect(contents.canNavigate(contents.getURL())).toBe(true);
    expect(contents.canNavigate(contents.getURL(), false)).toBe(false);
  });

  it('embeds no other view, and neither does any window that comes to be', async () => {
    const { contents, main, windows } = await startShellUnderTest();
    expect(contents.canAttachView()).toBe(false);
    new main.BrowserWindow({ webPreferences: {} });
    const other = windows[1]!.webContents;
    expect([other.canAttachView(), other.canOpenWindow('https://example.org/')]).toEqual([false, false]);
  });

  it.each(['media', 'geolocation', 'notifications', 'clipboard-read', 'fileSystem', 'usb', 'openExternal'])(
    'is not granted "%s"',
    async (permission) => {
      const { contents } = await startShellUnderTest();
      expect(contents.isPermitted(permission)).toEqual({ asked: false, checked: false, device: false });
    },
  );

  it.each([
    'https://example.org/a.js',
    'http://127.0.0.1:9/',
    'ws://127.0.0.1/',
    'file:///etc/passwd',
    'ftp://example.org/',
    'blob:https://example.org/3b0a',
    'app://elsewhere/index.html',
  ])('fetches nothing from %s', async (address) => {
    const { contents } = await startShellUnderTest();
    expect(contents.mayRequest(address)).toBe(false);
    expect(await contents.request(address)).toBeNull();
  });

  it.each(['app://footrail/index.html', 'blob:app://footrail/3b0a', 'data:image/png;base64,AA=='])(
    'fetches %s',
    async (address) => {
      const { contents } = await startShellUnderTest();
      expect(contents.mayRequest(address)).toBe(true);
    },
  );

  it('saves as a download only what the page made itself', async () => {
    const { contents } = await startShellUnderTest();
    expect(contents.canDownload('blob:app://footrail/3b0a')).toBe(true);
    for (const address of ['https://example.org/x.exe', 'blob:https://example.org/1', 'data:text/plain,x']) {
      expect(contents.canDownload(address)).toBe(false);
    }
  });
});
