import type { IpcMainEvent, IpcMainInvokeEvent } from 'electron';
import { isAppAddress } from './appAddress.ts';

/**
 * Whether a message comes from the top frame of our own window, still showing our own page. A frame that is gone
 * (null), a frame inside the page, another window, or another address is not trusted.
 */
export const isTrustedSender = (
  event: Pick<IpcMainEvent | IpcMainInvokeEvent, 'sender' | 'senderFrame'>,
  ourContentsId: number,
): boolean =>
  event.sender.id === ourContentsId &&
  event.senderFrame !== null &&
  event.senderFrame.parent === null &&
  isAppAddress(event.senderFrame.url);
