import { EventEmitter } from 'node:events';
import type { PreloadElectron } from '../../electron/preload/exposeBridge.ts';
import { crossContextBridge } from './crossContextBridge.ts';
import type { DeliverInvoke, DeliverSend } from './standInIpc.ts';

type Listener = (...args: never[]) => unknown;
type ProtocolHandler = (request: Request) => Promise<Response>;

export interface StandInSession extends EventEmitter {
  permissionRequest: Listener | undefined;
  permissionCheck: Listener | undefined;
  devicePermission: Listener | undefined;
  beforeRequest: Listener | undefined;
  readonly protocolHandlers: Map<string, ProtocolHandler>;
}

/** A frame that a message says it comes from; null where the frame is gone. */
export type StandInFrame = { readonly url: string; readonly parent: object | null } | null;

const preventable = <Rest extends object>(rest: Rest) => {
  const event = {
    ...rest,
    defaultPrevented: false,
    preventDefault: () => {
      event.defaultPrevented = true;
    },
  };
  return event;
};

/** One page with its process: what its scripts can see and try, and what the main process sees of it. */
export class StandInContents extends EventEmitter {
  readonly id: number;
  readonly session: StandInSession;
  destroyed = false;
  reloads = 0;
  #address = '';
  #openHandler: ((details: { url: string }) => { action: string }) | undefined;
  readonly #deliver: DeliverInvoke;
  readonly #deliverSend: DeliverSend;
  #fromMain = new EventEmitter();
  /** What the preload put on the page. */
  exposed: Record<string, unknown> = {};

  constructor(id: number, session: StandInSession, deliver: DeliverInvoke, deliverSend: DeliverSend) {
    super();
    this.id = id;
    this.session = session;
    this.#deliver = deliver;
    this.#deliverSend = deliverSend;
  }

  getURL = (): string => this.#address;
  isDestroyed = (): boolean => this.destroyed;
  setWindowOpenHandler = (handler: (details: { url: string }) => { action: string }): void => {
    this.#openHandler = handler;
  };
  reload = (): void => {
    this.reloads += 1;
    this.emit('did-start-navigation', { isMainFrame: true, isSameDocument: false, url: this.#address });
  };
  send = (channel: string, ...args: unknown[]): void => {
    if (this.destroyed) throw new Error('Object has been destroyed');
    this.#fromMain.emit(channel, {}, ...(structuredClone(args) as unknown[]));
  };

  /** Shows an address, with fresh scripts; gives what the preload may use. */
  enter(address: string): PreloadElectron {
    this.#address = address;
    this.#fromMain = new EventEmitter();
    this.exposed = {};
    const fromMain = this.#fromMain;
    const ipcRenderer = {
      invoke: (channel: string, ...args: unknown[]) => this.invokeFrom(this.#topFrame(), channel, ...args),
      send: (channel: string, ...args: unknown[]) => this.sendFrom(this.#topFrame(), channel, ...args),
      on: (channel: string, listener: (...args: unknown[]) => void) => fromMain.on(channel, listener),
      off: (channel: string, listener: (...args: unknown[]) => void) => fromMain.off(channel, listener),
    };
    const contextBridge = {
      exposeInMainWorld: (key: string, value: unknown) => {
        if (key in this.exposed)
          throw new Error(`Cannot bind an API on top of an existing property on the window`);
        this.exposed[key] = crossContextBridge(value);
      },
    };
    return { contextBridge, ipcRenderer } as unknown as PreloadElectron;
  }

  #topFrame = (): StandInFrame => ({ url: this.#address, parent: null });

  /** An `invoke` as from the given frame: what a page does whose scripts got hold of IPC itself. */
  invokeFrom(frame: StandInFrame, channel: string, ...args: unknown[]): Promise<unknown> {
    return this.#deliver({ sender: this, senderFrame: frame }, channel, args);
  }

  /** A `send` as from the given frame. */
  sendFrom(frame: StandInFrame, channel: string, ...args: unknown[]): void {
    this.#deliverSend({ sender: this, senderFrame: frame }, channel, args);
  }

  /** Whether the page, or a frame in it, gets to another address by a link or a script. */
  canNavigate(url: string, isMainFrame = true): boolean {
    const details = preventable({ url, isMainFrame });
    this.emit('will-frame-navigate', details);
    if (isMainFrame) this.emit('will-navigate', details, url);
    return !details.defaultPrevented;
  }

  canBeRedirected(url: string): boolean {
    const details = preventable({ url, isMainFrame: true });
    this.emit('will-redirect', details, url);
    return !details.defaultPrevented;
  }

  canAttachView(): boolean {
    const event = preventable({});
    this.emit('will-attach-webview', event, {}, {});
    return !event.defaultPrevented;
  }

  /** Whether `window.open` opens anything; Electron allows it where nobody set a handler. */
  canOpenWindow(url: string): boolean {
    return this.#openHandler?.({ url }).action !== 'deny';
  }

  /** Whether a permission is granted on request and on check; Electron grants both where nobody set a handler. */
  isPermitted(permission: string): {
    readonly asked: boolean;
    readonly checked: boolean;
    readonly device: boolean;
  } {
    let asked = true;
    const { permissionRequest, permissionCheck, devicePermission } = this.session;
    const request = permissionRequest as ((...args: unknown[]) => void) | undefined;
    request?.(this, permission, (granted: boolean) => {
      asked = granted;
    });
    const check = permissionCheck as ((...args: unknown[]) => boolean) | undefined;
    const device = devicePermission as ((...args: unknown[]) => boolean) | undefined;
    return {
      asked,
      checked: check?.(this, permission) ?? true,
      device: device?.({ deviceType: permission }) ?? true,
    };
  }

  canDownload(url: string): boolean {
    const event = preventable({});
    this.session.emit('will-download', event, { getURL: () => url }, this);
    return !event.defaultPrevented;
  }

  /** Whether the session lets a request of the page out; Electron lets out all where nobody set a handler. */
  mayRequest(url: string): boolean {
    let cancelled = false;
    const beforeRequest = this.session.beforeRequest as ((...args: unknown[]) => void) | undefined;
    beforeRequest?.({ url }, (answer: { cancel?: boolean }) => {
      cancelled = answer.cancel === true;
    });
    return !cancelled;
  }

  /** A request of the page; null where the session cancels it or nothing serves its scheme. */
  async request(url: string, init?: RequestInit): Promise<Response | null> {
    const handler = this.session.protocolHandlers.get(new URL(url).protocol.slice(0, -1));
    return this.mayRequest(url) && handler ? handler(new Request(url, init)) : null;
  }
}
