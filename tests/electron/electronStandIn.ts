import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import type { MenuItemConstructorOptions } from 'electron';
import type { MainElectron } from '../../electron/main/mainElectron.ts';
import type { PreloadElectron } from '../../electron/preload/exposeBridge.ts';
import { StandInContents, type StandInSession } from './standInContents.ts';
import { createIpcMain } from './standInIpc.ts';

/**
 * A small stand-in of the `electron` module, for one app with its windows. What goes between the processes is copied by
 * structured clone, as Electron does; what crosses between the preload's and the page's world is copied as the context
 * bridge does. It behaves as Electron's documentation describes the few parts that the shell uses, and no others.
 */
export interface StandInOptions {
  readonly userDataFolder: string;
  /** False where another instance of the program runs. */
  readonly isFirstInstance?: boolean;
  readonly isPackaged?: boolean;
  readonly workAreas?: readonly { x: number; y: number; width: number; height: number }[];
  /** Runs the preload; by default its built CommonJS file, with a `require` that gives `electron` only. */
  readonly runPreload?: (electron: PreloadElectron) => void;
}

type Listener = (...args: unknown[]) => unknown;

/** The items of a menu and of the menus in it. */
export const menuItemsOf = (
  menu: readonly MenuItemConstructorOptions[],
): readonly MenuItemConstructorOptions[] =>
  menu.flatMap((entry) => [entry, ...(Array.isArray(entry.submenu) ? menuItemsOf(entry.submenu) : [])]);

const sandboxedRequire =
  (electron: PreloadElectron) =>
  (name: string): unknown => {
    if (name !== 'electron') throw new Error(`module not found: ${name}`);
    return electron;
  };

/** Runs a built preload as a sandboxed renderer does: CommonJS, with hardly anything to require. */
const runBuiltPreload = (path: string, electron: PreloadElectron): void => {
  new Function('require', 'module', 'exports', readFileSync(path, 'utf8'))(
    sandboxedRequire(electron),
    { exports: {} },
    {},
  );
};

const createSession = (): StandInSession => {
  const emitter = new EventEmitter();
  const session: StandInSession = Object.assign(emitter, {
    permissionRequest: undefined,
    permissionCheck: undefined,
    devicePermission: undefined,
    beforeRequest: undefined,
    protocolHandlers: new Map(),
    setPermissionRequestHandler: (handler: Listener) => {
      session.permissionRequest = handler;
    },
    setPermissionCheckHandler: (handler: Listener) => {
      session.permissionCheck = handler;
    },
    setDevicePermissionHandler: (handler: Listener) => {
      session.devicePermission = handler;
    },
    webRequest: {
      onBeforeRequest: (handler: Listener) => {
        session.beforeRequest = handler;
      },
    },
  });
  return session;
};

/** What the person would do in the native dialogs, and what was shown to them. */
export class StandInDialog {
  nextOpen: { canceled: boolean; filePaths: string[] } = { canceled: true, filePaths: [] };
  nextSave: { canceled: boolean; filePath: string } = { canceled: true, filePath: '' };
  readonly shown: { kind: string; options: Record<string, unknown> }[] = [];
  showOpenDialog = async (_window: unknown, options: Record<string, unknown>) => {
    this.shown.push({ kind: 'open', options });
    return this.nextOpen;
  };
  showSaveDialog = async (_window: unknown, options: Record<string, unknown>) => {
    this.shown.push({ kind: 'save', options });
    return this.nextSave;
  };
  showMessageBox = async (...args: unknown[]) => {
    // With or without a window to belong to.
    this.shown.push({ kind: 'message', options: args.at(-1) as Record<string, unknown> });
    return { response: 0, checkboxChecked: false };
  };
  /** Which button is pressed where the program waits for it. */
  nextAnswer = 0;
  showMessageBoxSync = (...args: unknown[]): number => {
    this.shown.push({ kind: 'message', options: args.at(-1) as Record<string, unknown> });
    return this.nextAnswer;
  };
  showErrorBox = (title: string, content: string) => {
    this.shown.push({ kind: 'error', options: { title, content } });
  };
}

export const createElectronStandIn = (options: StandInOptions) => {
  const { ipcMain, deliver, deliverSend } = createIpcMain();
  const session = createSession();
  const dialog = new StandInDialog();
  const windows: StandInWindow[] = [];
  const record = {
    quits: 0,
    exitCode: undefined as number | undefined,
    sandboxed: false,
    privilegedSchemes: [] as { scheme: string; privileges?: Record<string, boolean> }[],
    menu: [] as MenuItemConstructorOptions[],
    openedPaths: [] as string[],
    /** The order of what was asked before and after the app was ready. */
    log: [] as string[],
  };

  const app = Object.assign(new EventEmitter(), {
    isPackaged: options.isPackaged ?? false,
    setName: (name: string) => record.log.push(`setName ${name}`),
    requestSingleInstanceLock: () => options.isFirstInstance ?? true,
    enableSandbox: () => {
      record.log.push('enableSandbox');
      record.sandboxed = true;
    },
    whenReady: async () => {
      record.log.push('ready');
    },
    getPath: (name: string) => {
      if (name !== 'userData') throw new Error(`the stand-in has no path "${name}"`);
      return options.userDataFolder;
    },
    quit: () => {
      let isHeldUp = false;
      const preventDefault = (): void => {
        isHeldUp = true;
      };
      app.emit('will-quit', { preventDefault });
      if (!isHeldUp) record.quits += 1;
    },
    exit: (code: number) => {
      record.exitCode = code;
    },
    showAboutPanel: () => record.log.push('about'),
  });

  class StandInWindow extends EventEmitter {
    readonly webContents: StandInContents;
    readonly settings: Record<string, unknown>;
    visible = false;
    maximized = false;
    minimized = false;
    focused = false;
    destroyed = false;
    constructor(settings: Record<string, unknown>) {
      super();
      this.settings = settings;
      this.webContents = new StandInContents(windows.length + 1, session, deliver, deliverSend);
      windows.push(this);
      app.emit('web-contents-created', {}, this.webContents);
    }
    async loadURL(address: string): Promise<void> {
      const electron = this.webContents.enter(address);
      const { preload } = this.settings['webPreferences'] as { preload: string };
      if (options.runPreload) options.runPreload(electron);
      else runBuiltPreload(preload, electron);
      this.emit('ready-to-show');
    }
    show = () => {
      this.visible = true;
    };
    maximize = () => {
      this.maximized = true;
    };
    restore = () => {
      this.minimized = false;
    };
    focus = () => {
      this.focused = true;
    };
    isMaximized = () => this.maximized;
    isMinimized = () => this.minimized;
    isDestroyed = () => this.destroyed;
    getNormalBounds = () => {
      const { x = 0, y = 0, width, height } = this.settings as Record<string, number>;
      return { x, y, width, height };
    };
    /** As the person does with the window's cross. */
    close = () => {
      this.emit('close', { preventDefault() {} });
      this.destroyed = true;
      this.webContents.destroyed = true;
      this.emit('closed');
      app.emit('window-all-closed');
    };
  }

  const main = {
    app,
    BrowserWindow: StandInWindow,
    Menu: {
      buildFromTemplate: (items: MenuItemConstructorOptions[]) => ({
        items,
        getMenuItemById: (id: string) => menuItemsOf(items).find((item) => item.id === id) ?? null,
      }),
      setApplicationMenu: (menu: { readonly items: MenuItemConstructorOptions[] }) => {
        record.menu = menu.items;
      },
    },
    dialog,
    ipcMain,
    protocol: {
      registerSchemesAsPrivileged: (schemes: typeof record.privilegedSchemes) => {
        record.log.push('registerSchemesAsPrivileged');
        record.privilegedSchemes.push(...schemes);
      },
      handle: (scheme: string, handler: (request: Request) => Promise<Response>) => {
        session.protocolHandlers.set(scheme, handler);
      },
    },
    screen: {
      getAllDisplays: () =>
        (options.workAreas ?? [{ x: 0, y: 0, width: 1920, height: 1040 }]).map((workArea) => ({ workArea })),
    },
    session: { defaultSession: session },
    shell: {
      openPath: async (path: string) => {
        record.openedPaths.push(path);
        return '';
      },
    },
  };

  return {
    /** What the main process is given; the cast stands for the many parts of Electron that the shell never touches. */
    main: main as unknown as MainElectron,
    windows: windows as readonly StandInWindow[],
    session,
    dialog,
    record: record as Readonly<typeof record>,
    app,
  };
};

export type ElectronStandIn = ReturnType<typeof createElectronStandIn>;
