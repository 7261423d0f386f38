import { createHash } from 'node:crypto';
import { basename, dirname, resolve } from 'node:path';
import { z } from 'zod';
import type { ApiOutput } from '../app/apiMethods.ts';
import { projectSearchSchema } from '../app/search/projectSearch.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { historyLines } from './historyLines.ts';
import { progressOnTerminal } from './progressOnTerminal.ts';
import { projectIdOf } from './projectIdOf.ts';
import { readInputFile } from './readInputFile.ts';
import { archiveFolderOf, requireArchive, withArchive } from './withArchive.ts';
import { writeOutputFiles } from './writeOutputFiles.ts';

/** The commands of `footrail archive` that find projects and bring them from one archive to another. */

const exportUsage = 'footrail archive export PROJECT --out FILE [--without-issued] [--archive DIR] [--json]';

/** `footrail archive export`: one project as one file. */
export const exportProject = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, isOn } = readArguments(args, {
    flags: ['archive', 'out'],
    switches: ['without-issued'],
    names: ['PROJECT'],
    usage: exportUsage,
  });
  const withoutIssued = isOn('without-issued');
  const projectId = projectIdOf(positionals[0] ?? '');
  const out = text('out');
  if (!out)
    throw new CommandError({
      code: 'bad-arguments',
      message: `--out FILE is missing. Usage: ${exportUsage}`,
      path: '--out',
    });
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api, ports }) => {
    const issues = (await ports.store.listIssues(projectId)).issues.length;
    const { bytes, mediaType } = await callApi(
      api,
      'export-project',
      { projectId, withoutIssued },
      { context: progressOnTerminal('Packed') },
    );
    const path = resolve(out);
    const [file] = await writeOutputFiles(dirname(path), [{ fileName: basename(path), mediaType, bytes }], {
      replace: false,
    });
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    return {
      exitCode: 0,
      value: { projectId, file, sha256, issued: withoutIssued ? 'left-out' : 'whole', issues },
      text: [
        `Written: ${path} (${bytes.byteLength} bytes)`,
        `SHA-256 ${sha256}`,
        ...(issues === 0
          ? []
          : [
              withoutIssued
                ? `${issues} issued: their numbers are in it, their files were left out.`
                : `${issues} issued, with all their files.`,
            ]),
      ].join('\n'),
    };
  });
};

const outcomes = {
  'taken-in': 'Taken in',
  'there-already': 'There already, nothing changed',
  'gone-on': 'Gone on as the file does',
  'issues-added': 'There already; what was issued elsewhere was added',
  'theirs-taken': 'The file’s state taken over; yours stays in the history',
  'taken-in-as-copy': 'Taken in as a copy',
} as const;

const relations = {
  new: 'This archive does not have it.',
  same: 'This archive has it just so.',
  behind: 'This archive has all of it, and has gone on.',
  ahead: 'The file goes on from where this archive is.',
  parted: 'This archive and the file have gone different ways.',
} as const;

const issueNotes = {
  here: '',
  file: '',
  'left-out': ' (its files were left out)',
  differs: ' (the same number for different issues: only --copy can take the file in)',
} as const;

const comparisonWords = (found: ApiOutput<'compare-project-file'>): string => {
  const { name, relation, common, mine, theirs, differences, runs, issues } = found;
  const issueWords = (side: (typeof issues)[number]['mine']): string =>
    side === null
      ? 'not there'
      : `${side.issuedAt.slice(0, 10)}${side.issuedBy ? ` by ${side.issuedBy}` : ''}, ${side.purpose}, ${side.files} files`;
  const runWords = (side: (typeof runs)[number]['mine']): string =>
    side === null
      ? 'not there'
      : `${side.lengthMm === null ? 'no length' : `${side.lengthMm} mm`}, ${side.pieces ?? 'no'} pieces`;
  return [
    `${name}: ${relations[relation]}`,
    ...(mine
      ? [`${common} changes in common; ${mine.changes} more here, ${theirs.changes} more in the file`]
      : []),
    ...differences.map(
      ({ what, mine: here, theirs: there }) => `  ${what}: here ${here || '-'}; file ${there || '-'}`,
    ),
    ...runs.map((run) => `  ${run.name}: here ${runWords(run.mine)}; file ${runWords(run.theirs)}`),
    ...issues.map(
      ({ number, relation: how, mine: here, theirs: there }) =>
        `  Issue ${number}: here ${issueWords(here)}; file ${issueWords(there)}${issueNotes[how]}`,
    ),
  ].join('\n');
};

/** `footrail archive import`: takes a project file in; the archive is made where there is none. */
export const importProject = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, isOn } = readArguments(args, {
    flags: ['archive'],
    switches: ['copy', 'theirs', 'compare'],
    names: ['FILE'],
    usage: 'footrail archive import FILE [--copy | --theirs | --compare] [--archive DIR] [--json]',
  });
  if (['copy', 'theirs', 'compare'].filter(isOn).length > 1)
    throw new CommandError({
      code: 'bad-arguments',
      message: 'Say one of --copy, --theirs and --compare.',
      path: '--copy',
    });
  const choice = isOn('copy') ? 'copy' : isOn('theirs') ? 'theirs' : 'refuse';
  const path = positionals[0] ?? '';
  const bytes = await readInputFile(path);
  return withArchive(archiveFolderOf(text('archive')), async ({ api }) => {
    if (isOn('compare')) {
      const found = await callApi(api, 'compare-project-file', { bytes });
      const needsChoice =
        found.relation === 'parted' || found.issues.some(({ relation }) => relation === 'differs');
      return { exitCode: needsChoice ? 1 : 0, value: found, text: comparisonWords(found) };
    }
    const taken = await callApi(
      api,
      'import-project',
      { bytes, choice },
      { context: progressOnTerminal('Read') },
    );
    const { issuesAdded } = taken;
    return {
      exitCode: 0,
      value: taken,
      text: `${outcomes[taken.outcome]}: ${taken.name} (${taken.projectId})${issuesAdded === 0 ? '' : `, ${issuesAdded} issued`}`,
    };
  });
};

const searchFlags = {
  client: 'client',
  range: 'rangeId',
  plan: 'planSha256',
  'tender-from': 'tenderFrom',
  'tender-to': 'tenderTo',
  'changed-from': 'changedFrom',
  'changed-to': 'changedTo',
  'retained-before': 'retainedBefore',
  order: 'order',
} as const;
const countFlags = {
  'run-from': 'runFromMm',
  'run-to': 'runToMm',
  'pieces-from': 'piecesFrom',
  'pieces-to': 'piecesTo',
} as const;

const searchUsage =
  'footrail archive search [WORDS] [--state S,S] [--client C] [--station ITEM,ITEM] [--range ID] [--plan SHA256|FILE.pdf] [--tender-from DAY] [--tender-to DAY] [--changed-from DAY] [--changed-to DAY] [--retained-before DAY] [--run-from MM] [--run-to MM] [--pieces-from N] [--pieces-to N] [--order NAME] [--descending] [--most N] [--skip N] [--csv FILE] [--archive DIR] [--json]';

/** A plan is named by its SHA-256 or by the file itself. */
const planSha256Of = async (named: string): Promise<string> =>
  /^[0-9a-f]{64}$/.test(named)
    ? named
    : createHash('sha256')
        .update(await readInputFile(named))
        .digest('hex');

/** `footrail archive search`. Exit code 1 where nothing is found. */
export const searchProjects = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, count, isOn } = readArguments(args, {
    flags: [
      ...Object.keys(searchFlags),
      ...Object.keys(countFlags),
      'state',
      'station',
      'most',
      'skip',
      'csv',
      'archive',
    ],
    switches: ['descending'],
    names: ['WORDS?'],
    usage: searchUsage,
  });
  const listOf = (flag: string): readonly string[] | undefined =>
    text(flag)
      ?.split(',')
      .filter((part) => part !== '');
  const given: Record<string, unknown> = {
    words: positionals[0],
    states: listOf('state'),
    stations: listOf('station'),
    ...Object.fromEntries(Object.entries(searchFlags).map(([flag, name]) => [name, text(flag)])),
    ...Object.fromEntries(Object.entries(countFlags).map(([flag, name]) => [name, count(flag, 0)])),
    ...(isOn('descending') ? { descending: true } : {}),
  };
  const plan = text('plan');
  if (plan !== undefined) given['planSha256'] = await planSha256Of(plan);
  const parsed = projectSearchSchema.safeParse(
    Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)),
  );
  if (!parsed.success)
    throw new CommandError({
      code: 'bad-search',
      message: z.prettifyError(parsed.error),
      path: parsed.error.issues[0]?.path.join('.') ?? '',
    });
  const search = parsed.data;
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api }) => {
    const found = await callApi(api, 'search-projects', {
      search,
      offset: count('skip', 0) ?? 0,
      most: Math.min(200, count('most', 1) ?? 50),
    });
    const csv = text('csv');
    if (csv !== undefined) {
      const { bytes, mediaType } = await callApi(api, 'export-project-list', { search });
      const path = resolve(csv);
      await writeOutputFiles(dirname(path), [{ fileName: basename(path), mediaType, bytes }], {
        replace: false,
      });
    }
    const lines = found.projects.map(({ project, facts }) =>
      [
        project.projectId,
        project.modifiedAt.slice(0, 10),
        project.state,
        project.jobNumber,
        project.name,
        [project.client, project.site].filter(Boolean).join(', '),
        (facts?.runs ?? [])
          .filter(({ straightsMm }) => straightsMm.length > 0)
          .map(({ straightsMm }) => `${straightsMm.join(' + ')} mm`)
          .join('; '),
      ]
        .filter(Boolean)
        .join('  '),
    );
    return {
      exitCode: found.total === 0 ? 1 : 0,
      value: found,
      text: [
        ...lines,
        found.total === 0 ? 'Nothing found.' : `${found.projects.length} of ${found.total}`,
        ...(found.isPartial ? ['Not everything could be looked through: see "footrail archive check".'] : []),
      ].join('\n'),
    };
  });
};

const historyUsage = 'footrail archive history PROJECT [--archive DIR] [--json]';

/** `footrail archive history`: who did what and when, what was issued too. */
export const showHistory = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text } = readArguments(args, {
    flags: ['archive'],
    names: ['PROJECT'],
    usage: historyUsage,
  });
  const projectId = projectIdOf(positionals[0] ?? '');
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api }) => {
    const history = await callApi(api, 'project-history', { projectId });
    return {
      exitCode: 0,
      value: { projectId, ...history },
      text: historyLines(history).join('\n') || 'Nothing has been changed since the project was made.',
    };
  });
};
