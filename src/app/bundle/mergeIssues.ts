import type { NewIssue, StoredIssue } from '../issue/issuePort.ts';
import type { ReadIssues } from './bundledIssues.ts';
import type { IssueRelation } from './importChoice.ts';
import { isSameJson } from './safeJson.ts';

/** Issues of one project in this archive and in a project file. An issue is known by its number. */

export interface IssueSide {
  readonly issuedAt: string;
  readonly issuedBy: string;
  readonly purpose: string;
  readonly files: number;
  readonly inputsSha256: string;
}

/** A number under which the two do not have the same issue. */
export interface IssueDifference {
  readonly number: number;
  readonly relation: IssueRelation;
  readonly mine: IssueSide | null;
  readonly theirs: IssueSide | null;
}

const sideOf = (issue: StoredIssue | undefined): IssueSide | null =>
  issue
    ? {
        issuedAt: issue.issuedAt,
        issuedBy: issue.issuedBy,
        purpose: issue.purpose,
        files: issue.files.length,
        inputsSha256: issue.inputsSha256,
      }
    : null;

export interface IssueMerge {
  readonly differences: readonly IssueDifference[];
  /** What this archive has to take in to have all that the file has. */
  readonly toAdd: readonly NewIssue[];
  readonly conflicts: readonly IssueDifference[];
}

/** How the issues of a file stand to this archive's: united by number, the same one twice being one. */
export const mergeIssues = (mine: readonly StoredIssue[], file: ReadIssues): IssueMerge => {
  const [own, other] = [
    new Map(mine.map((issue) => [issue.number, issue])),
    new Map(file.records.map((issue) => [issue.number, issue])),
  ];
  const whole = new Map(file.whole.map((issue) => [issue.number, issue]));
  const numbers = [...new Set([...own.keys(), ...other.keys()])].sort((one, next) => one - next);
  const differences = numbers.flatMap((number): readonly IssueDifference[] => {
    const [here, there] = [own.get(number), other.get(number)];
    if (here && there && isSameJson(here, there)) return [];
    const relation = here && there ? 'differs' : here ? 'here' : whole.has(number) ? 'file' : 'left-out';
    return [{ number, relation, mine: sideOf(here), theirs: sideOf(there) }];
  });
  return {
    differences,
    toAdd: file.whole.filter(({ number }) => !own.has(number)),
    conflicts: differences.filter(({ relation }) => relation === 'differs'),
  };
};

/** Both sides of conflicts, for a refusal. */
export const conflictWords = (conflicts: readonly IssueDifference[]): string =>
  conflicts
    .slice(0, 5)
    .map(({ number, mine, theirs }) => {
      const words = (side: IssueSide | null) =>
        side
          ? `${side.issuedAt.slice(0, 16).replace('T', ' ')}${side.issuedBy ? ` by ${side.issuedBy}` : ''}, ${side.purpose}, ${side.files} files`
          : 'none';
      return `issue ${number}: here ${words(mine)}; in the file ${words(theirs)}`;
    })
    .join(' | ');
