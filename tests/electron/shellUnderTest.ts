import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type OpenApp, type ShellSettings, startShell } from '../../electron/main/startShell.ts';
import { exposeBridge } from '../../electron/preload/exposeBridge.ts';
import type { ApiAnswer } from '../../src/app/apiMethods.ts';
import type { CallContext } from '../../src/app/callContext.ts';
import type { Api } from '../../src/app/createApi.ts';
import type { DesktopBridge } from '../../src/app/desktopBridge.ts';
import { createElectronStandIn, type StandInOptions } from './electronStandIn.ts';
import type { StandInContents } from './standInContents.ts';

/** An API that answers what a test tells it, and remembers what it was asked. */
export class RecordingApi implements Api {
  readonly calls: { method: string; input: unknown }[] = [];
  answer: (method: string, input: unknown, context: CallContext) => Promise<ApiAnswer<unknown>> =
    async () => ({
      ok: true,
      value: {},
    });
  call(method: string, input: unknown, context: CallContext = {}): Promise<ApiAnswer<unknown>> {
    this.calls.push({ method, input });
    return this.answer(method, input, context);
  }
}

const folders: string[] = [];

/** A temporary folder that {@link removeFolders} takes away. */
export const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-shell-'));
  folders.push(folder);
  return folder;
};

export const removeFolders = (): void => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
};

/** Starts the real main process and preload over the stand-in, with a tiny page and a recording API. */
export const startShellUnderTest = async (
  options: Partial<StandInOptions> = {},
  settings: Partial<ShellSettings> = {},
) => {
  const userDataFolder = options.userDataFolder ?? temporaryFolder();
  const rendererFolder = join(temporaryFolder(), 'renderer');
  mkdirSync(join(rendererFolder, 'assets'), { recursive: true });
  writeFileSync(join(rendererFolder, 'index.html'), '<!doctype html><title>Footrail</title>');
  writeFileSync(join(rendererFolder, 'assets', 'main.js'), 'export {};\n');
  const electron = createElectronStandIn({ runPreload: exposeBridge, ...options, userDataFolder });
  const api = new RecordingApi();
  let closes = 0;
  const openApp = async (): Promise<OpenApp> => ({
    api,
    notices: [],
    close: async () => {
      closes += 1;
    },
  });
  await startShell(electron.main, {
    rendererFolder,
    preloadPath: '/preload.cjs',
    archiveFolder: '/archive',
    demo: false,
    platform: 'linux',
    openApp,
    ...settings,
  });
  const window = electron.windows[0];
  return {
    ...electron,
    api,
    rendererFolder,
    userDataFolder,
    closes: () => closes,
    get window() {
      if (!window) throw new Error('no window was opened');
      return window;
    },
    get contents(): StandInContents {
      return this.window.webContents;
    },
    get bridge(): DesktopBridge {
      return this.contents.exposed['footrail'] as DesktopBridge;
    },
  };
};
