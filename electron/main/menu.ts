import type { MenuItemConstructorOptions } from 'electron';
import type { MenuChoice } from '../../src/app/desktopBridge.ts';
import { menuWords } from '../ipc/menuChoices.ts';

/** What the menu needs to know and do. */
export interface MenuContext {
  readonly isMac: boolean;
  /** Shows the developer tools' items. */
  readonly isDevelopment: boolean;
  readonly choose: (choice: MenuChoice) => void;
  readonly showArchiveFolder: () => void;
  readonly showAbout: () => void;
}

const divider: MenuItemConstructorOptions = { type: 'separator' };

/**
 * The window's menu. The keys beside the items are the page's own, shown but not taken by the menu: the page knows
 * whether a text is being typed.
 */
export const menuTemplate = (context: MenuContext): MenuItemConstructorOptions[] => {
  const item = (choice: MenuChoice, accelerator?: string): MenuItemConstructorOptions => ({
    label: menuWords[choice],
    id: choice,
    // Until the page says that it can take it.
    enabled: false,
    ...(accelerator === undefined ? {} : { accelerator, registerAccelerator: false }),
    click: () => context.choose(choice),
  });
  const about: MenuItemConstructorOptions = { label: 'About Footrail', click: context.showAbout };
  const macApplication: MenuItemConstructorOptions = {
    label: 'Footrail',
    submenu: [
      about,
      divider,
      { role: 'hide' },
      { role: 'hideOthers' },
      { role: 'unhide' },
      divider,
      { role: 'quit' },
    ],
  };
  const development: MenuItemConstructorOptions[] = [divider, { role: 'toggleDevTools' }, { role: 'reload' }];
  return [
    ...(context.isMac ? [macApplication] : []),
    {
      label: 'File',
      submenu: [
        item('show-projects'),
        item('add-plan', 'CommandOrControl+O'),
        divider,
        item('save-schedule'),
        item('save-plan'),
        divider,
        { label: 'Show the archive’s folder', click: context.showArchiveFolder },
        divider,
        context.isMac ? { role: 'close' } : { role: 'quit' },
      ],
    },
    {
      label: 'Edit',
      submenu: [
        item('undo', 'CommandOrControl+Z'),
        item('redo', 'CommandOrControl+Shift+Z'),
        divider,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
      ],
    },
    {
      label: 'View',
      submenu: [
        item('whole-sheet'),
        item('closer'),
        item('further-away'),
        divider,
        { role: 'togglefullscreen' },
        ...(context.isDevelopment ? development : []),
      ],
    },
    ...(context.isMac ? [{ role: 'windowMenu' as const }] : [{ label: 'Help', submenu: [about] }]),
  ];
};
