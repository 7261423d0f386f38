import type { ProjectId } from '../../document/ids.ts';
import type { ProjectRow } from '../projectRow.ts';

/**
 * What the app needs of a store to let a client's personal data go for good while the counts stay. Part of the store's
 * port.
 *
 * What stays of a purged project: the lengths, straights and turns of its runs, the pieces and stations, its state, its
 * stock range, and the months of its dates; the numbers and SHA-256 of its issues. What goes: everything else.
 */

/** A project that was to be kept until a day that is over. */
export interface ProjectPastRetention {
  readonly project: ProjectRow;
  readonly retainUntil: string;
  /** It was taken out of the list already; all of it is still in the archive. */
  readonly isRemoved: boolean;
}

/** A file that holds the project as it was: a backup, or what is left of an earlier archive. */
export interface HoldingCopy {
  /** Its path within the archive folder. */
  readonly name: string;
  readonly byteLength: number;
  /** `unread`: it can't be looked into, so that it may hold the project. */
  readonly holds: 'project' | 'unread';
}

/** What a purge takes away and what it leaves, before it is done. */
export interface PurgePreview {
  readonly project: ProjectRow;
  readonly retainUntil: string;
  readonly isRemoved: boolean;
  readonly goes: {
    readonly changes: number;
    /** Names of the accounts in its history. */
    readonly people: readonly string[];
    readonly issues: number;
    /**
     * A plan that another project has too stays, under the name that it has there. Plans that were taken in more than a
     * day ago and came into no project go with the first purge.
     */
    readonly plans: readonly { readonly fileName: string; readonly isShared: boolean }[];
    /** Saved searches that name the client, the project, the job or the site. */
    readonly savedSearches: readonly string[];
  };
  readonly stays: ProjectCounts;
  /** Other projects that name the same client; each is purged on its own. */
  readonly sameClient: number;
  readonly copies: readonly HoldingCopy[];
}

/** What no person is known by. */
export interface ProjectCounts {
  /** `2027-03` of the last change and of the tender; empty where there is none. */
  readonly changedIn: string;
  readonly tenderIn: string;
  readonly state: string;
  readonly rangeId: string;
  readonly sheets: number;
  readonly runLengthsMm: readonly number[];
  readonly pieces: number | null;
  readonly stations: readonly string[];
}

export interface PurgedProject extends ProjectCounts {
  /** The day of the purge. */
  readonly purgedOn: string;
}

export interface PurgeReport {
  readonly counts: ProjectCounts;
  /** Whether what was deleted is gone from the archive's files too; `advice` says what to do where not. */
  readonly isErased: boolean;
  readonly advice: string;
  /** Copies taken away with it, by name. */
  readonly copiesRemoved: readonly string[];
  /** Copies that still hold the project. */
  readonly copiesLeft: readonly HoldingCopy[];
}

export interface PurgeStore {
  /** Those whose retention ended before `day` (`2027-03-15`), the longest over first; removed projects too. */
  projectsPastRetention(day: string): Promise<readonly ProjectPastRetention[]>;
  /** Null when there is no such project, or it is purged already. */
  previewPurge(projectId: ProjectId): Promise<PurgePreview | null>;
  /**
   * Purges a project: in one transaction, then out of the bytes of the files.
   *
   * @param withCopies takes away every file in the archive folder that still holds it, after a fresh backup without it
   */
  purgeProject(purge: {
    readonly projectId: ProjectId;
    readonly at: string;
    readonly withCopies: boolean;
  }): Promise<PurgeReport | null>;
  purgedProjects(): Promise<readonly PurgedProject[]>;
}
