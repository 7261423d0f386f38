import type { ContextBridge, IpcRenderer, IpcRendererEvent } from 'electron';
import type { ApiAnswer, ApiMethod } from '../../src/app/apiMethods.ts';
import type { BridgeMethod, DesktopBridge, MenuChoice } from '../../src/app/desktopBridge.ts';
import { apiMethodNames } from '../ipc/apiMethodNames.ts';
import { channels, type ProgressMessage } from '../ipc/channels.ts';

/** The parts of Electron that the preload uses. */
export interface PreloadElectron {
  readonly contextBridge: Pick<ContextBridge, 'exposeInMainWorld'>;
  readonly ipcRenderer: Pick<IpcRenderer, 'invoke' | 'send' | 'on' | 'off'>;
}

const brokenOff = (thrown: unknown): ApiAnswer<never> => ({
  ok: false,
  error: {
    code: 'shell-unreachable',
    message: `The program behind this window did not answer: ${thrown instanceof Error ? thrown.message : thrown}.`,
  },
});

/**
 * Puts {@link DesktopBridge} on the page as `window.footrail`: exactly the named functions, each bound to one channel.
 * The page never gets hold of `ipcRenderer`, an event, or a channel's name.
 */
export const exposeBridge = ({ contextBridge, ipcRenderer }: PreloadElectron): void => {
  let lastCallId = 0;
  const progressListeners = new Map<number, (done: number, of: number) => void>();

  ipcRenderer.on(channels.progress, (_event: IpcRendererEvent, { callId, done, of }: ProgressMessage) =>
    progressListeners.get(callId)?.(done, of),
  );

  const invoke = <Value>(channel: string, payload?: unknown): Promise<ApiAnswer<Value>> =>
    ipcRenderer.invoke(channel, payload).catch(brokenOff);

  const methodFor =
    (method: ApiMethod): BridgeMethod =>
    (input, onProgress) => {
      lastCallId += 1;
      const callId = lastCallId;
      if (onProgress) progressListeners.set(callId, onProgress);
      return {
        answer: invoke<unknown>(channels.call, { callId, method, input }).finally(() =>
          progressListeners.delete(callId),
        ),
        cancel: () => ipcRenderer.send(channels.cancel, { callId }),
      };
    };

  const bridge: DesktopBridge = {
    api: Object.fromEntries(
      apiMethodNames.map((method) => [method, methodFor(method)]),
    ) as DesktopBridge['api'],
    pickPlan: () => invoke(channels.pickPlan),
    saveFile: ({ fileName, bytes }) => invoke(channels.saveFile, { fileName, bytes }),
    offerMenuChoices: (choices) => ipcRenderer.send(channels.menuOffers, choices),
    onMenuChoice: (listener) => {
      const pass = (_event: IpcRendererEvent, choice: MenuChoice) => listener(choice);
      ipcRenderer.on(channels.menuChoice, pass);
      return () => {
        ipcRenderer.off(channels.menuChoice, pass);
      };
    },
  };
  contextBridge.exposeInMainWorld('footrail', bridge);
};
