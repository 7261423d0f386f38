import type { ProjectId } from '../../document/ids.ts';

/** The part of the store that keeps what was sent out; `addIssue` of the store fills it. Implemented by `src/archive`. */

/** One file of an issue, without its bytes. */
export interface IssuedEntry {
  /** Which of the documents to choose from it belongs to (`issueDocuments.ts`). */
  readonly document: string;
  readonly fileName: string;
  readonly mediaType: string;
  readonly byteLength: number;
  /** In lower-case hexadecimal. */
  readonly sha256: string;
}

/** A numbered, dated, immutable copy of a takeoff as sent out. */
export interface StoredIssue {
  /** Counts up from 1 in each project; a number is given out once. */
  readonly number: number;
  /** ISO 8601 instant in UTC; the date on every document. */
  readonly issuedAt: string;
  readonly issuedBy: string;
  readonly purpose: string;
  /** The change of the project that the issued document came from. */
  readonly revision: number;
  /** The program that made the files, with its version. */
  readonly program: string;
  readonly inputsSha256: string;
  readonly files: readonly IssuedEntry[];
}

/** An issue to be kept, with all its bytes. */
export interface NewIssue extends Omit<StoredIssue, 'inputsSha256' | 'files'> {
  /** JSON text of everything that the files were made from, save the plans, which the archive has. */
  readonly inputs: string;
  readonly files: readonly {
    readonly document: string;
    readonly fileName: string;
    readonly mediaType: string;
    readonly bytes: Uint8Array;
  }[];
}

/** Issues of a project that come from another archive. */
export interface BroughtIssues {
  readonly issues: readonly NewIssue[];
  /** Numbers up to this one were given out elsewhere: none of them is given out here. */
  readonly lastNumber: number;
}

export interface IssueStore {
  /** Every issue of a project, the first first, and the number that the next one gets. */
  listIssues(
    projectId: ProjectId,
  ): Promise<{ readonly issues: readonly StoredIssue[]; readonly nextNumber: number }>;
  /** The inputs of an issue as they were given; null when there is none of that number. */
  issueInputs(projectId: ProjectId, number: number): Promise<string | null>;
  /** The bytes of one file of an issue; null when there is none of that name. */
  issuedBytes(projectId: ProjectId, number: number, fileName: string): Promise<Uint8Array | null>;
  /**
   * Keeps issues that another archive gave out under the numbers that they have: all of them or none. Answers false, and
   * keeps nothing, where one of the numbers was given out here.
   */
  keepBroughtIssues(projectId: ProjectId, brought: BroughtIssues): Promise<boolean>;
}
