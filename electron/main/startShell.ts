import { join } from 'node:path';
import type { BrowserWindow, IpcMainEvent, IpcMainInvokeEvent } from 'electron';
import type { Api } from '../../src/app/createApi.ts';
import { listStaticFiles, type StaticFiles } from '../../src/host/staticFiles.ts';
import { appScheme, pageAddress } from './appAddress.ts';
import { lockDownContents, lockDownSession } from './lockDown.ts';
import type { MainElectron } from './mainElectron.ts';
import { openMainWindow } from './openMainWindow.ts';
import { serveAppFiles } from './serveAppFiles.ts';
import { serveCalls } from './serveCalls.ts';
import { serveDialogs } from './serveDialogs.ts';
import { showMenu } from './showMenu.ts';
import { isTrustedSender } from './trustedSender.ts';

/** The API over an open archive, and the way to close it. */
export interface OpenApp {
  readonly api: Api;
  /** What the person should know about the archive; empty when all is well. */
  readonly notices: readonly string[];
  /** Ends what is under way and closes the archive. */
  readonly close: () => Promise<void>;
}

export interface ShellSettings {
  readonly rendererFolder: string;
  readonly preloadPath: string;
  readonly archiveFolder: string;
  /** Opens the demo project first. */
  readonly demo: boolean;
  readonly platform: NodeJS.Platform;
  /** Opens the archive; throws with a sentence for the person where that cannot be. */
  readonly openApp: (archiveFolder: string, warn: (line: string) => void) => Promise<OpenApp>;
}

/** Says why the program cannot start, and ends it. */
const giveUp = ({ app, dialog }: MainElectron, thrown: unknown): void => {
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  dialog.showErrorBox('Footrail cannot start', message);
  app.exit(1);
};

/** Tells the person what is wrong with the archive, without holding anything up. */
const tell = ({ dialog }: MainElectron, lines: readonly string[]): void => {
  if (lines.length === 0) return;
  void dialog.showMessageBox({ type: 'warning', message: 'About the archive', detail: lines.join('\n\n') });
};

/**
 * Holds the program's end up until the archive is closed: a backup under way is finished first. The program ends even
 * where closing fails; every accepted change is on disk already.
 */
const closeBeforeQuitting = ({ app }: MainElectron, opened: OpenApp): void => {
  let isClosed = false;
  app.on('will-quit', (event) => {
    if (isClosed) return;
    event.preventDefault();
    void opened.close().finally(() => {
      isClosed = true;
      app.quit();
    });
  });
};

/** Tells the person when the page has died, and shows it again: the archive has every accepted command. */
const reviveWhenGone = ({ dialog }: MainElectron, window: BrowserWindow): void => {
  window.webContents.on('render-process-gone', async (_event, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return;
    await dialog.showMessageBox(window, {
      type: 'warning',
      message: 'The page stopped working and will be shown again.',
      detail: `Everything that was shown as saved is in the archive. (${reason})`,
      buttons: ['Show it again'],
    });
    if (!window.isDestroyed()) window.webContents.reload();
  });
};

/** Opens the window and gives its page, and nothing else, the API and the dialogs. */
const openShellWindow = (electron: MainElectron, settings: ShellSettings, api: Api): void => {
  const { app, shell } = electron;
  const window = openMainWindow(electron, {
    preloadPath: settings.preloadPath,
    boundsPath: join(app.getPath('userData'), 'window.json'),
    address: settings.demo ? `${pageAddress}#project=demo` : pageAddress,
  });
  const contentsId = window.webContents.id;
  const isTrusted = (event: IpcMainEvent | IpcMainInvokeEvent) => isTrustedSender(event, contentsId);
  const calls = serveCalls(electron, api, isTrusted);
  serveDialogs(electron, window, isTrusted);
  const menu = {
    isMac: settings.platform === 'darwin',
    isDevelopment: !app.isPackaged,
    showArchiveFolder: () => void shell.openPath(settings.archiveFolder),
    showAbout: () => app.showAboutPanel(),
  };
  showMenu(electron, window, menu, isTrusted);
  reviveWhenGone(electron, window);
  window.webContents.on('render-process-gone', () => calls.cancelAll());
  window.webContents.on('did-start-navigation', ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) calls.cancelAll();
  });
  window.on('closed', () => calls.cancelAll());
  app.on('second-instance', () => {
    if (window.isDestroyed()) return;
    if (window.isMinimized()) window.restore();
    window.focus();
  });
};

/**
 * Starts the desktop shell. Everything that must be said before Electron is ready is said before the first `await`.
 *
 * Resolves once the window is opening, or once it is clear that there will be none: where the program runs already
 * (that one's window comes forward), or where the archive or the page's files cannot be opened (the person is told why).
 */
export const startShell = async (electron: MainElectron, settings: ShellSettings): Promise<void> => {
  const { app, protocol, session } = electron;
  app.setName('Footrail');
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  app.enableSandbox();
  protocol.registerSchemesAsPrivileged([
    {
      scheme: appScheme,
      privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true },
    },
  ]);
  app.on('web-contents-created', (_event, contents) => lockDownContents(contents));
  app.on('window-all-closed', () => app.quit());
  await app.whenReady();

  let files: StaticFiles;
  let opened: OpenApp;
  try {
    files = listStaticFiles(settings.rendererFolder);
    opened = await settings.openApp(settings.archiveFolder, (line) => tell(electron, [line]));
  } catch (thrown) {
    giveUp(electron, thrown);
    return;
  }
  closeBeforeQuitting(electron, opened);
  lockDownSession(session.defaultSession);
  protocol.handle(appScheme, serveAppFiles(files));
  openShellWindow(electron, settings, opened.api);
  tell(electron, opened.notices);
};
