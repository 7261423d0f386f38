/**
 * What to do where a file and this archive's project have parted: `refuse` it, take `theirs` as the current state, with
 * this archive's in the history, or have both, the file's as a `copy`.
 */
export const importChoices = ['refuse', 'theirs', 'copy'] as const;
export type ImportChoice = (typeof importChoices)[number];

export const importOutcomes = [
  'taken-in',
  'there-already',
  'gone-on',
  'issues-added',
  'theirs-taken',
  'taken-in-as-copy',
] as const;
export type ImportOutcome = (typeof importOutcomes)[number];

/**
 * How a number stands under which this archive and a file do not have the same issue. `here`: only this archive has one.
 * `file`: only the file has one, whole. `left-out`: only the file names one, without its files. `differs`: the same number
 * was given to different issues.
 */
export const issueRelations = ['here', 'file', 'left-out', 'differs'] as const;
export type IssueRelation = (typeof issueRelations)[number];
