import type { ApiOutput } from '../app/apiMethods.ts';

type History = ApiOutput<'project-history'>;

const acts = { command: '', undo: 'Undone: ', redo: 'Done again: ' } as const;
const moment = (instant: string): string => instant.slice(0, 16).replace('T', ' ');

/** A project's history, a line for each change and each issue, the oldest first; times in UTC. */
export const historyLines = ({ changes, issues }: History): readonly string[] => {
  const issuesAfter = (revision: number): readonly string[] =>
    issues
      .filter(({ after }) => after === revision)
      .map(
        ({ number, at, by, purpose, files }) =>
          `-  ${moment(at)}  ${by || '-'}  Issue ${number} went out, ${purpose}, ${files} files`,
      );
  return [
    ...issuesAfter(0),
    ...changes.flatMap(({ revision, kind, label, at, by, detail }) => [
      `${revision}  ${moment(at)}  ${by ?? '-'}  ${acts[kind]}${label}${detail === '' ? '' : ` (${detail})`}`,
      ...issuesAfter(revision),
    ]),
  ];
};
