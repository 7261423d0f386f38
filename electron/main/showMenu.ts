import type { BrowserWindow, IpcMainEvent, IpcMainInvokeEvent } from 'electron';
import { z } from 'zod';
import { channels } from '../ipc/channels.ts';
import { menuChoices } from '../ipc/menuChoices.ts';
import type { MainElectron } from './mainElectron.ts';
import { type MenuContext, menuTemplate } from './menu.ts';

const offersSchema = z.array(z.enum(menuChoices)).max(menuChoices.length);

/** Shows the menu, passes its choices to the page, and keeps available just those that the page offers to take. */
export const showMenu = (
  { ipcMain, Menu }: Pick<MainElectron, 'ipcMain' | 'Menu'>,
  window: BrowserWindow,
  context: Omit<MenuContext, 'choose'>,
  isTrusted: (event: IpcMainEvent | IpcMainInvokeEvent) => boolean,
): void => {
  const menu = Menu.buildFromTemplate(
    menuTemplate({ ...context, choose: (choice) => window.webContents.send(channels.menuChoice, choice) }),
  );
  Menu.setApplicationMenu(menu);
  ipcMain.on(channels.menuOffers, (event, payload: unknown) => {
    const offers = offersSchema.safeParse(payload);
    if (!isTrusted(event) || !offers.success) return;
    for (const choice of menuChoices) {
      const item = menu.getMenuItemById(choice);
      if (item) item.enabled = offers.data.includes(choice);
    }
  });
};
