import type { BrowserWindow } from 'electron';
import type { MainElectron } from './mainElectron.ts';
import { isReachable, readWindowBounds, writeWindowBounds } from './windowBounds.ts';

export interface MainWindowSettings {
  readonly preloadPath: string;
  /** Where the window's place is remembered. */
  readonly boundsPath: string;
  readonly address: string;
}

const firstSize = { width: 1440, height: 900 };

/** Opens the one window: a sandboxed page without Node, where it was last time if that is still on a screen. */
export const openMainWindow = (
  { BrowserWindow: Window, screen, dialog }: Pick<MainElectron, 'BrowserWindow' | 'screen' | 'dialog'>,
  { preloadPath, boundsPath, address }: MainWindowSettings,
): BrowserWindow => {
  const remembered = readWindowBounds(boundsPath);
  const areas = screen.getAllDisplays().map(({ workArea }) => workArea);
  const bounds = remembered && isReachable(remembered, areas) ? remembered : undefined;
  const place = bounds ? { x: bounds.x, y: bounds.y, width: bounds.width, height: bounds.height } : firstSize;
  const window = new Window({
    ...place,
    minWidth: 900,
    minHeight: 600,
    show: false,
    title: 'Footrail',
    webPreferences: {
      preload: preloadPath,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      // Its dictionaries would be fetched from elsewhere.
      spellcheck: false,
    },
  });
  window.once('ready-to-show', () => {
    if (bounds?.maximized) window.maximize();
    window.show();
  });
  // A page that has something unsaved holds its window open, and unlike a browser nobody would ask: the window would
  // only seem to be stuck. (Electron: to prevent this event is to let the window close.)
  window.webContents.on('will-prevent-unload', (event) => {
    const stay = 0;
    const answer = dialog.showMessageBoxSync(window, {
      type: 'warning',
      message: 'Not everything is saved yet.',
      detail: 'What is not saved is lost if this window closes now.',
      buttons: ['Stay', 'Close without saving'],
      defaultId: stay,
      cancelId: stay,
    });
    if (answer !== stay) event.preventDefault();
  });
  window.on('close', () => {
    writeWindowBounds(boundsPath, { ...window.getNormalBounds(), maximized: window.isMaximized() });
  });
  void window.loadURL(address);
  return window;
};
