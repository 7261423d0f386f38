import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { createElectronStandIn, type ElectronStandIn } from '../electron/electronStandIn.ts';
import { loadBuiltMain } from './loadBuiltMain.ts';
import { putBridgeOnPage } from './putBridgeOnPage.ts';

/** Stands for `app://footrail` in the real browser, which knows no such scheme; nothing answers to this name. */
const standInOrigin = 'https://footrail.invalid';

export interface DesktopShell {
  readonly page: Page;
  readonly electron: ElectronStandIn;
  /** What the page's policy refused, and what the page's scripts threw or reported as an error. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

const waitForWindow = async (electron: ElectronStandIn) => {
  for (let turn = 0; turn < 2000; turn += 1) {
    const window = electron.windows[0];
    if (window?.webContents.getURL()) return window;
    if (electron.record.exitCode !== undefined) throw new Error(JSON.stringify(electron.dialog.shown));
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  throw new Error('the shell opened no window');
};

/**
 * Runs the desktop program as it is built: main process and preload over the stand-in of Electron, the page in a real
 * browser. The page's files come through the `app:` scheme's handler with its headers, its calls go through preload and
 * IPC to the API over a real archive.
 */
export const openDesktopShell = async (
  browser: Browser,
  { folder, demo }: { readonly folder: string; readonly demo: boolean },
): Promise<DesktopShell> => {
  const electron = createElectronStandIn({ userDataFolder: join(folder, 'user') });
  await loadBuiltMain(electron, [`--archive=${join(folder, 'archive')}`, ...(demo ? ['--demo'] : [])]);
  const window = await waitForWindow(electron);
  const contents = window.webContents;

  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await context.route('**/*', async (route) => {
    const request = route.request();
    const address = new URL(request.url());
    if (address.origin !== standInOrigin) return route.abort();
    const response = await contents.request(`app://footrail${address.pathname}`, {
      method: request.method(),
    });
    if (!response) return route.abort();
    return route.fulfill({
      status: response.status,
      headers: Object.fromEntries(response.headers),
      body: Buffer.from(await response.arrayBuffer()),
    });
  });
  await putBridgeOnPage(page, contents);
  const { pathname, hash } = new URL(contents.getURL());
  await page.goto(`${standInOrigin}${pathname}${hash}`);
  return {
    page,
    electron,
    complaints,
    close: async () => {
      await context.close();
      window.close();
    },
  };
};
