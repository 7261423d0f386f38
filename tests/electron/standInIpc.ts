import { EventEmitter } from 'node:events';

type Handler = (event: unknown, ...args: unknown[]) => unknown;

/** Carries an `invoke` from a page to its handler and the answer back, both as copies. */
export type DeliverInvoke = (event: unknown, channel: string, args: readonly unknown[]) => Promise<unknown>;
/** Carries a `send` from a page, as a copy. */
export type DeliverSend = (event: unknown, channel: string, args: readonly unknown[]) => void;

/** The main process's end of IPC: one handler for each channel, as Electron insists on. */
export const createIpcMain = () => {
  const handlers = new Map<string, Handler>();
  const ipcMain = Object.assign(new EventEmitter(), {
    handle: (channel: string, handler: Handler) => {
      if (handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
      handlers.set(channel, handler);
    },
  });
  const deliver: DeliverInvoke = async (event, channel, args) => {
    const handler = handlers.get(channel);
    if (!handler) throw new Error(`No handler registered for '${channel}'`);
    const copies = structuredClone(args) as unknown[];
    try {
      return structuredClone(await handler(event, ...copies));
    } catch (thrown) {
      throw new Error(`Error invoking remote method '${channel}': ${thrown}`);
    }
  };
  const deliverSend: DeliverSend = (event, channel, args) => {
    ipcMain.emit(channel, event, ...(structuredClone(args) as unknown[]));
  };
  return { ipcMain, deliver, deliverSend };
};
