import type { Session, WebContents } from 'electron';
import { isAppAddress, isAppBlob } from './appAddress.ts';

/** Requests that stay on this machine and in this program. */
const isOwnRequest = (address: string): boolean =>
  isAppAddress(address) ||
  isAppBlob(address) ||
  address.startsWith('data:') ||
  address.startsWith('devtools:');

/**
 * Closes a session: no permission is ever granted, no device is handed out, nothing is fetched from anywhere but the
 * page's own scheme, and only blobs that the page made can be saved as downloads.
 */
export const lockDownSession = (session: Session): void => {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest(({ url }, answer) => answer({ cancel: !isOwnRequest(url) }));
  session.on('will-download', (event, item) => {
    if (!isAppBlob(item.getURL())) event.preventDefault();
  });
};

/**
 * Keeps a page where it is: no navigation in any frame, by link, script or redirect; no new window; no embedded view.
 * Reloading the page itself stays possible.
 */
export const lockDownContents = (contents: WebContents): void => {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => {
    if (!isAppAddress(event.url) || event.url !== contents.getURL()) event.preventDefault();
  });
  contents.on('will-frame-navigate', (event) => {
    if (!event.isMainFrame || event.url !== contents.getURL()) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
};
