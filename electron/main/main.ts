import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { app, BrowserWindow, dialog, ipcMain, Menu, protocol, screen, session, shell } from 'electron';
import { defaultArchiveFolder } from '../../src/host/archiveFolder.ts';
import { openApp } from './openApp.ts';
import { startShell } from './startShell.ts';

// In development the program is Electron with this file as its argument; packaged, the program is all there is.
const { values: options } = parseArgs({
  args: process.argv.slice(app.isPackaged ? 1 : 2),
  options: { demo: { type: 'boolean', default: false }, archive: { type: 'string' } },
  // Electron and the system add arguments of their own.
  strict: false,
});

void startShell(
  { app, BrowserWindow, dialog, ipcMain, Menu, protocol, screen, session, shell },
  {
    rendererFolder: join(import.meta.dirname, '..', 'renderer'),
    preloadPath: join(import.meta.dirname, 'preload.cjs'),
    archiveFolder: typeof options.archive === 'string' ? options.archive : defaultArchiveFolder(),
    demo: options.demo === true,
    platform: process.platform,
    openApp,
  },
);
