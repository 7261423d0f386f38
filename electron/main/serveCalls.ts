import type { IpcMainEvent, IpcMainInvokeEvent } from 'electron';
import { z } from 'zod';
import type { ApiAnswer } from '../../src/app/apiMethods.ts';
import type { Api } from '../../src/app/createApi.ts';
import { apiMethodNames } from '../ipc/apiMethodNames.ts';
import { channels, type ProgressMessage } from '../ipc/channels.ts';
import type { MainElectron } from './mainElectron.ts';

const callId = z.int().min(1);
const callSchema = z.strictObject({ callId, method: z.enum(apiMethodNames), input: z.unknown() });
const cancelSchema = z.strictObject({ callId });

const refusal = (code: string, message: string): ApiAnswer<never> => ({
  ok: false,
  error: { code, message },
});

export interface CallServer {
  /** Ends and forgets every call under way: the page that made them is gone, and the next one counts from 1 again. */
  readonly cancelAll: () => void;
}

/**
 * Carries the page's calls to the API. The sender and the shape of each message are checked here, the input by the
 * API. A message that fails is answered with an error value and reaches nothing.
 */
export const serveCalls = (
  { ipcMain }: Pick<MainElectron, 'ipcMain'>,
  api: Api,
  isTrusted: (event: IpcMainEvent | IpcMainInvokeEvent) => boolean,
): CallServer => {
  const underWay = new Map<number, AbortController>();

  ipcMain.handle(channels.call, async (event, payload: unknown): Promise<ApiAnswer<unknown>> => {
    if (!isTrusted(event)) return refusal('untrusted-sender', 'Only the program’s own page may call.');
    const parsed = callSchema.safeParse(payload);
    if (!parsed.success) {
      return refusal('bad-call', `The call is not one of the API: ${z.prettifyError(parsed.error)}`);
    }
    const { method, input, callId: id } = parsed.data;
    if (underWay.has(id)) return refusal('bad-call', `A call numbered ${id} is under way already.`);
    const controller = new AbortController();
    underWay.set(id, controller);
    const onProgress = (done: number, of: number): void => {
      const message: ProgressMessage = { callId: id, done, of };
      if (!event.sender.isDestroyed()) event.sender.send(channels.progress, message);
    };
    try {
      return await api.call(method, input, { signal: controller.signal, onProgress });
    } finally {
      if (underWay.get(id) === controller) underWay.delete(id);
    }
  });

  ipcMain.on(channels.cancel, (event, payload: unknown) => {
    const parsed = cancelSchema.safeParse(payload);
    if (isTrusted(event) && parsed.success) underWay.get(parsed.data.callId)?.abort();
  });

  return {
    cancelAll: () => {
      for (const controller of underWay.values()) controller.abort();
      underWay.clear();
    },
  };
};
