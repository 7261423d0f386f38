import type * as Electron from 'electron';

/** The parts of Electron that the main process uses; handed in, so that tests can stand in for them. */
export type MainElectron = Pick<
  typeof Electron,
  'app' | 'BrowserWindow' | 'Menu' | 'dialog' | 'ipcMain' | 'protocol' | 'screen' | 'session' | 'shell'
>;
