import { resolve } from 'node:path';
import { StoreError } from '../app/ports.ts';
import { listBackups } from '../archive/backupFiles.ts';
import { restoreArchive } from '../archive/restoreArchive.ts';
import { exportProject, importProject, searchProjects, showHistory } from './archiveProjectCommands.ts';
import { purgeProject, showPurged } from './archivePurgeCommands.ts';
import { salvageArchive } from './archiveSalvageCommand.ts';
import { takeInPlans } from './archiveTakeInCommand.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { historyLines } from './historyLines.ts';
import { projectIdOf } from './projectIdOf.ts';
import { archiveFolderOf, refusedByStore, requireArchive, withArchive } from './withArchive.ts';

const listProjects = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text, count } = readArguments(args, {
    flags: ['archive', 'most', 'skip'],
    usage: 'footrail archive list [--most N] [--skip N] [--archive DIR] [--json]',
  });
  const most = count('most', 1);
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api }) => {
    const { total, projects } = await callApi(api, 'list-projects', {
      offset: count('skip', 0),
      ...(most === undefined ? {} : { most: Math.min(10_000, most) }),
    });
    const words = projects.map((project) =>
      [
        project.projectId,
        project.modifiedAt.slice(0, 10),
        project.state,
        project.name,
        [project.client, project.site].filter(Boolean).join(', '),
        `${project.runs} runs`,
      ]
        .filter(Boolean)
        .join('  '),
    );
    if (projects.length < total) words.push(`${projects.length} of ${total}`);
    return { exitCode: 0, value: { total, projects }, text: words.join('\n') || 'The archive is empty.' };
  });
};

/** So much of the history is shown with a project; "archive history" has all of it. */
const changesShown = 30;

const showProject = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text } = readArguments(args, {
    flags: ['archive'],
    names: ['PROJECT'],
    usage: 'footrail archive show PROJECT [--archive DIR] [--json]',
  });
  const projectId = projectIdOf(positionals[0] ?? '');
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api, ports }) => {
    const { document, revision } = await callApi(api, 'open-project', { projectId });
    const history = (await ports.store.loadProject(projectId))?.history;
    const done = history?.done.map(({ label }) => label) ?? [];
    const undone = history?.undone.map(({ label }) => label) ?? [];
    const whole = await callApi(api, 'project-history', { projectId });
    const lines = historyLines(whole);
    const earlier = lines.length - changesShown;
    const { name, number, client, site, state } = document.job;
    const runs = document.runIds.map((runId) => `  ${document.runs[runId]?.name ?? runId}`);
    return {
      exitCode: 0,
      value: { projectId, revision, document, done, undone, issues: whole.issues },
      text: [
        `${name} (${state})`,
        ...[number, client, site].filter(Boolean).map((word) => `  ${word}`),
        `${document.sheetIds.length} sheets, ${document.runIds.length} runs, revision ${revision}`,
        ...runs,
        'History (change, time in UTC, who, what):',
        ...(earlier > 0 ? [`  … ${earlier} earlier ones: footrail archive history ${projectId}`] : []),
        ...lines.slice(-changesShown).map((line) => `  ${line}`),
      ].join('\n'),
    };
  });
};

const checkAnswer = (found: {
  readonly problems: readonly string[];
  readonly notices: readonly string[];
  readonly projects?: number;
  readonly events?: number;
  readonly plans?: number;
  readonly byteLength?: number;
}): CommandAnswer => {
  const isSound = found.problems.length === 0;
  const counts = `${found.projects ?? 0} projects, ${found.events ?? 0} changes, ${found.plans ?? 0} plans`;
  return {
    exitCode: isSound ? 0 : 1,
    value: { sound: isSound, ...found },
    text: [isSound ? `Sound: ${counts}.` : 'Damaged:', ...found.problems, ...found.notices].join('\n'),
  };
};

const check = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text } = readArguments(args, {
    flags: ['archive'],
    usage: 'footrail archive check [--archive DIR] [--json]',
  });
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  try {
    return await withArchive(folder, async ({ archive }) => {
      const found = await archive.check();
      const { advice, notices } = archive.health();
      return checkAnswer({ ...found, notices: [...notices, ...(advice === '' ? [] : [advice])] });
    });
  } catch (error) {
    // Damage so bad that nothing can be read is the answer to the question, not a bad question.
    if (error instanceof CommandError && error.code === 'archive-damaged')
      return checkAnswer({ problems: [error.message], notices: [] });
    throw error;
  }
};

const backUp = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text } = readArguments(args, {
    flags: ['archive', 'out'],
    usage: 'footrail archive backup [--out FILE] [--archive DIR] [--json]',
  });
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  const out = text('out');
  return withArchive(folder, async ({ archive }) => {
    if (out !== undefined) {
      const path = resolve(out);
      await archive.backUpTo(path);
      return { exitCode: 0, value: { path, made: true }, text: `Backed up to ${path}` };
    }
    const made = await archive.backUp();
    const path = made?.path ?? archive.backups()[0]?.path ?? null;
    return {
      exitCode: 0,
      value: { path, made: made !== null },
      text: made ? `Backed up to ${made.path}` : `Nothing changed since the last backup, ${path}`,
    };
  });
};

const showBackups = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text } = readArguments(args, {
    flags: ['archive'],
    usage: 'footrail archive backups [--archive DIR] [--json]',
  });
  const backups = listBackups(archiveFolderOf(text('archive'))).map(({ name, at, byteLength, path }) => ({
    name,
    at,
    byteLength,
    path,
  }));
  const words = backups.map(({ name, at, byteLength }) => `${name}  ${at}  ${byteLength} bytes`);
  return { exitCode: 0, value: { backups }, text: words.join('\n') || 'There are no backups.' };
};

const restore = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text } = readArguments(args, {
    flags: ['archive'],
    names: ['BACKUP'],
    usage: 'footrail archive restore BACKUP [--archive DIR] [--json]',
  });
  const folder = archiveFolderOf(text('archive'));
  try {
    const now = new Date().toISOString();
    const { backup, setAside } = restoreArchive({ folder, backupName: positionals[0] ?? '', now });
    return {
      exitCode: 0,
      value: { restored: backup.name, setAside },
      text: `Restored ${backup.name}.${setAside === null ? '' : ` The archive as it was is in ${setAside}`}`,
    };
  } catch (error) {
    if (error instanceof StoreError)
      throw new CommandError({ code: error.code, message: error.message, path: 'BACKUP' });
    throw refusedByStore(error);
  }
};

const commands: Readonly<Record<string, (args: readonly string[]) => Promise<CommandAnswer>>> = {
  list: listProjects,
  search: searchProjects,
  show: showProject,
  history: showHistory,
  export: exportProject,
  import: importProject,
  check,
  backup: backUp,
  backups: showBackups,
  restore,
  salvage: salvageArchive,
  'take-in': takeInPlans,
  purge: purgeProject,
  purged: showPurged,
};

/** `footrail archive list|search|show|history|export|import|check|backup|backups|restore|salvage|take-in|purge|purged`. */
export const archiveCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const [name = '', ...rest] = args[0] === '--json' ? args.slice(1) : args;
  const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (command) return command(rest);
  throw new CommandError({
    code: 'unknown-command',
    message: `There is no "footrail archive ${name}", only: ${Object.keys(commands).join(', ')}.`,
    path: name,
  });
};
