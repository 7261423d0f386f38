import type { ApiOutput } from '../app/apiMethods.ts';
import { callApi } from './callApi.ts';
import type { CommandAnswer } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { projectIdOf } from './projectIdOf.ts';
import { archiveFolderOf, requireArchive, withArchive } from './withArchive.ts';

/** The commands of `footrail archive` that let a client's personal data go. */

type Preview = ApiOutput<'preview-purge'>;
type Counts = Preview['stays'];
type Copies = Preview['copies'];

const countWords = ({ changedIn, state, runLengthsMm, pieces, stations, rangeId }: Counts): string =>
  [
    changedIn,
    state,
    `runs ${runLengthsMm.map((lengthMm) => `${lengthMm} mm`).join(', ') || 'without a length'}`,
    `${pieces ?? 'no'} pieces`,
    ...(stations.length > 0 ? [`stations ${stations.join(', ')}`] : []),
    `range ${rangeId || 'unknown'}`,
  ].join('; ');

const copyWords = (copies: Copies): readonly string[] =>
  copies.map(
    ({ name, byteLength, holds }) =>
      `  ${name}  ${byteLength} bytes${holds === 'unread' ? '  (can’t be looked into: may hold it)' : ''}`,
  );

const previewWords = ({ project, goes, stays, sameClient, copies }: Preview): string =>
  [
    `“${project.name}” (${[project.jobNumber, project.client, project.site].filter(Boolean).join(', ') || 'no client'})`,
    'Goes for good: name, job number, client, site, addenda, questions and answers, every run’s name, the drawing;',
    `  ${goes.changes} changes${goes.people.length > 0 ? ` by ${goes.people.join(', ')}` : ''}, ${goes.issues} issues (their numbers and SHA-256 stay)`,
    ...goes.plans.map(
      ({ fileName, isShared }) =>
        `  plan ${fileName}${isShared ? ': another project has it too, so it stays under the name that it has there' : ''}`,
    ),
    ...goes.savedSearches.map((name) => `  saved search “${name}”`),
    `Stays: ${countWords(stays)}`,
    ...(sameClient > 0 ? [`${sameClient} other projects name this client and stay as they are.`] : []),
    ...(copies.length > 0
      ? [
          'These files in the archive folder hold it too (--with-copies takes them away):',
          ...copyWords(copies),
        ]
      : []),
    'Out of reach: backups and project files kept elsewhere, and what was sent out.',
  ].join('\n');

/** `footrail archive purge`: says what would go and stay; does it where `--confirm` is given. Exit code 1 where not. */
export const purgeProject = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, isOn } = readArguments(args, {
    flags: ['archive'],
    switches: ['confirm', 'with-copies'],
    names: ['PROJECT?'],
    usage: 'footrail archive purge [PROJECT [--confirm] [--with-copies]] [--archive DIR] [--json]',
  });
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  const named = positionals[0];
  return withArchive(folder, async ({ api }) => {
    if (named === undefined) {
      const { projects } = await callApi(api, 'projects-past-retention', {});
      const lines = projects.map(({ project, retainUntil, isRemoved }) =>
        [project.projectId, retainUntil, project.name, project.client, isRemoved ? '(not in the list)' : '']
          .filter(Boolean)
          .join('  '),
      );
      return {
        exitCode: 0,
        value: { pastRetention: projects },
        text: lines.join('\n') || 'No project is past the day until which it was to be kept.',
      };
    }
    const projectId = projectIdOf(named);
    const preview = await callApi(api, 'preview-purge', { projectId });
    if (!isOn('confirm'))
      return {
        exitCode: 1,
        value: { purged: false, preview },
        text: `${previewWords(preview)}\nNothing was purged. Say --confirm to purge it for good.`,
      };
    const report = await callApi(api, 'purge-project', {
      projectId,
      name: preview.project.name,
      withCopies: isOn('with-copies'),
    });
    return {
      exitCode: 0,
      value: { purged: true, ...report },
      text: [
        `Purged. Stays: ${countWords(report.counts)}`,
        ...(report.advice === '' ? [] : [report.advice]),
        ...report.copiesRemoved.map((name) => `Taken away: ${name}`),
        ...(report.copiesLeft.length > 0 ? ['Still hold it:', ...copyWords(report.copiesLeft)] : []),
      ].join('\n'),
    };
  });
};

/** `footrail archive purged`: the counts that stay of purged projects. */
export const showPurged = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text } = readArguments(args, {
    flags: ['archive'],
    usage: 'footrail archive purged [--archive DIR] [--json]',
  });
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api }) => {
    const { projects } = await callApi(api, 'purged-projects', {});
    return {
      exitCode: 0,
      value: { projects },
      text: projects.map(countWords).join('\n') || 'Nothing has been purged.',
    };
  });
};
