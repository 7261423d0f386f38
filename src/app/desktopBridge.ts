import type { ApiAnswer, ApiMethod } from './apiMethods.ts';

/**
 * What the desktop shell puts on the page as `window.footrail`, and nothing else. Types only: the shell implements it,
 * the page uses it where it is there, and falls back to the loopback host's wire where it is not.
 */
export interface DesktopBridge {
  /** One function for each method of the API; the input is validated on the other side. */
  readonly api: { readonly [Method in ApiMethod]: BridgeMethod };
  /** Lets the person pick a plan; null when they think better of it. */
  readonly pickPlan: () => Promise<ApiAnswer<PickedFile | null>>;
  /** Lets the person choose where a file goes and writes it there; null when they think better of it. */
  readonly saveFile: (file: {
    readonly fileName: string;
    readonly bytes: Uint8Array;
  }) => Promise<ApiAnswer<SavedFile | null>>;
  /** Says which of the menu's choices the page can take now; the others show as not available. None at first. */
  readonly offerMenuChoices: (choices: readonly MenuChoice[]) => void;
  /** Calls back with each choice from the window's menu until the function that it returns is called. */
  readonly onMenuChoice: (listener: (choice: MenuChoice) => void) => () => void;
}

/** Starts a call. An AbortSignal does not cross into the shell's world, so the call brings its own `cancel`. */
export type BridgeMethod = (input: unknown, onProgress?: (done: number, of: number) => void) => BridgeCall;

export interface BridgeCall {
  /** Never rejects. */
  readonly answer: Promise<ApiAnswer<unknown>>;
  readonly cancel: () => void;
}

export interface PickedFile {
  /** Without its folder. */
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

export interface SavedFile {
  /** The name that the person gave it, without its folder. */
  readonly fileName: string;
}

/** What the menu can ask of the page. */
export type MenuChoice =
  | 'show-projects'
  | 'add-plan'
  | 'save-schedule'
  | 'save-plan'
  | 'undo'
  | 'redo'
  | 'whole-sheet'
  | 'closer'
  | 'further-away';
