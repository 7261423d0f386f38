import type { History } from '../document/history.ts';
import type { ProjectId } from '../document/ids.ts';
import type { Patch } from '../document/patch.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import type { ReadAnswer } from '../scale/readContract.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import type { BroughtIssues, IssueStore, NewIssue } from './issue/issuePort.ts';
import type { ProjectRow } from './projectRow.ts';
import type { PurgeStore } from './purge/purgePort.ts';
import type { RegisteredPages, RegistrationBasis } from './revision/registeredPages.ts';
import type { ProjectFacts } from './search/projectFacts.ts';
import type { SearchStore, StoreHealth } from './search/searchPort.ts';

/**
 * What the app needs from the world, owned here and implemented elsewhere: the store by `src/archive`, the plan reader
 * by `src/host/reading`, clock, ids and hash by each host. All of the store is asynchronous so that a server database
 * can stand behind it.
 */

export interface StoredProject {
  readonly projectId: ProjectId;
  /** How many events the project has had; each accepted command, undo and redo adds one. */
  readonly revision: number;
  /** As stored; the app migrates it. */
  readonly document: unknown;
  readonly history: History;
}

/** One accepted change. `patch` leads from the document before to the document after. */
export interface ProjectEvent {
  readonly kind: 'command' | 'undo' | 'redo';
  readonly label: string;
  readonly patch: Patch;
  readonly at: string;
  /** Who made it, by the name of their account; left out where it was not noted. */
  readonly by?: string | undefined;
}

export interface StoredPlan {
  readonly sha256: string;
  readonly fileName: string;
  readonly byteLength: number;
  readonly addedAt: string;
}

/** What a project that comes from elsewhere brings with it. */
export interface NeededContent {
  readonly plans: readonly {
    readonly sha256: string;
    readonly fileName: string;
    readonly bytes: Uint8Array;
  }[];
  readonly ranges: readonly StockRange[];
  readonly issued?: BroughtIssues | undefined;
  readonly at: string;
}

/** Errors that a store throws, by code; each host turns them into the API's error value. */
export class StoreError extends Error {
  readonly code: string;
  constructor(code: string, message: string) {
    super(message);
    this.name = 'StoreError';
    this.code = code;
  }
}

export interface Store extends SearchStore, IssueStore, PurgeStore {
  /** Last modified first. */
  listProjects(): Promise<readonly ProjectRow[]>;
  /**
   * Keeps a new project, with the changes that led to its document and the plans, stock ranges and issues where it comes
   * with any: all of it or nothing.
   * Facts left out, here and in `appendEvent`, are asked for later (`staleProjects`).
   */
  createProject(project: {
    readonly projectId: ProjectId;
    readonly document: ProjectDocument;
    readonly at: string;
    readonly events?: readonly ProjectEvent[] | undefined;
    readonly facts?: ProjectFacts | undefined;
    readonly needs?: NeededContent | undefined;
  }): Promise<void>;
  /** The project at its last accepted event, with its undo and redo steps; null when there is none of that id. */
  loadProject(projectId: ProjectId): Promise<StoredProject | null>;
  /**
   * Makes one event and the document after it durable, in one transaction. Answers `conflict` with the stored revision,
   * and changes nothing, when the project is not at `expectedRevision`.
   */
  appendEvent(change: {
    readonly projectId: ProjectId;
    readonly expectedRevision: number;
    readonly event: ProjectEvent;
    readonly document: ProjectDocument;
    readonly facts?: ProjectFacts | undefined;
  }): Promise<
    { readonly ok: true; readonly revision: number } | { readonly ok: false; readonly revision: number }
  >;
  /**
   * Keeps an issue, and the change of the project that goes with it where there is one, in one transaction. Answers
   * `ok: false`, and keeps nothing, when the project is not at `expectedRevision` or the number was given out already.
   */
  addIssue(added: {
    readonly projectId: ProjectId;
    readonly expectedRevision: number;
    readonly issue: NewIssue;
    readonly change?:
      | {
          readonly event: ProjectEvent;
          readonly document: ProjectDocument;
          readonly facts?: ProjectFacts | undefined;
        }
      | undefined;
  }): Promise<
    { readonly ok: true; readonly revision: number } | { readonly ok: false; readonly revision: number }
  >;
  /** Every change of a project, the oldest first; null when there is none of that id. */
  listEvents(projectId: ProjectId): Promise<readonly ProjectEvent[] | null>;
  /** Takes a project out of the list. Its events stay in the archive. */
  removeProject(projectId: ProjectId, at: string): Promise<boolean>;
  /** Keeps the original bytes of a plan once, under their SHA-256. */
  putPlan(plan: {
    readonly sha256: string;
    readonly fileName: string;
    readonly bytes: Uint8Array;
    readonly at: string;
  }): Promise<void>;
  getPlan(sha256: string): Promise<{ readonly plan: StoredPlan; readonly bytes: Uint8Array } | null>;
  /**
   * A reading (JSON text or bytes) kept so that a sheet is read once; `readerVersion` tells older readers' apart. Of a
   * plan that the archive does not have (any more) nothing is kept.
   */
  putReading(key: ReadingKey, reading: string | Uint8Array): Promise<void>;
  getReading(key: ReadingKey): Promise<string | Uint8Array | null>;
  /** Every stored version of every stock range, by id and then version. */
  listStockRanges(): Promise<readonly StockRange[]>;
  /** Keeps a version of a stock range; a version that is there already stays as it is. */
  putStockRange(range: StockRange, at: string): Promise<void>;
  /** How the archive is; where it is damaged, with the backups that are good. */
  health(): Promise<StoreHealth>;
}

export interface ReadingKey {
  readonly sha256: string;
  readonly page: number;
  readonly part: string;
  readonly readerVersion: string;
}

/** A plan could not be read; `code` says why (`password-needed`, `password-wrong`, `damaged`, `no-such-page`, …). */
export class PlanError extends Error {
  readonly code: string;
  constructor(code: string, message: string) {
    super(message);
    this.name = 'PlanError';
    this.code = code;
  }
}

export interface PlanPage {
  readonly page: number;
  /** MediaBox x UserUnit, unrotated. */
  readonly widthMm: number;
  readonly heightMm: number;
  readonly sizeName: string;
  readonly rotation: number;
  readonly userUnit: number;
}

export interface ReadContext {
  /** Layers switched on or off, by their id; all others are as the file has them. */
  readonly layers?: Readonly<Record<string, boolean>> | undefined;
  readonly password?: string | undefined;
  readonly signal?: AbortSignalLike | undefined;
  readonly onProgress?: ((done: number, of: number) => void) | undefined;
}

/** The part of the platform's AbortSignal that pure code may know. */
export interface AbortSignalLike {
  readonly aborted: boolean;
  addEventListener(type: 'abort', listener: () => void): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}

/** The answer of the `footrail read` contract for one page, JSON-able, its linework in wire form, and its text. */
export interface PlanPageReading {
  readonly answer: ReadAnswer;
  readonly linework: Uint8Array;
  /** Every text on the page, one a line; what a drawing is found by. */
  readonly text: string;
}

/** A page of a plan, to be read. */
export interface PlanPageBytes {
  readonly bytes: Uint8Array;
  readonly page: number;
  readonly password?: string | undefined;
  readonly layers?: Readonly<Record<string, boolean>> | undefined;
}

/** Reads plans where a crash or a hang can be ended without losing the project. Throws `PlanError`. */
export interface PlanReader {
  /** Changes whenever readings made by it may differ from earlier ones. */
  readonly version: string;
  pages(bytes: Uint8Array, context: ReadContext): Promise<readonly PlanPage[]>;
  readPage(bytes: Uint8Array, page: number, context: ReadContext): Promise<PlanPageReading>;
  /** How a page lies to an earlier one, and what differs. */
  register(
    old: PlanPageBytes,
    next: PlanPageBytes,
    basis: RegistrationBasis,
    context: ReadContext,
  ): Promise<RegisteredPages>;
}

export interface Ports {
  readonly store: Store;
  readonly plans: PlanReader;
  /** Now, as an ISO 8601 instant in UTC. */
  readonly now: () => string;
  /** The name of the account that works here, noted with each change; left out where there is none. */
  readonly who?: (() => string | undefined) | undefined;
  /** A fresh id without its kind prefix: letters and digits, later ones sort after earlier ones. */
  readonly freshId: () => string;
  /** A TrueType font with Latin, Greek and Cyrillic letters, to embed in drawings. */
  readonly font: () => Promise<Uint8Array>;
  /** SHA-256 in lower-case hexadecimal. */
  readonly sha256: (bytes: Uint8Array) => Promise<string>;
}
