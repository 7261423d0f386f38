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
  'theirs-taken',
  'taken-in-as-copy',
] as const;
export type ImportOutcome = (typeof importOutcomes)[number];
