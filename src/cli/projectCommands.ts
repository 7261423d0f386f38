import { join, resolve } from 'node:path';
import { type ProjectId, projectIdSchema } from '../document/ids.ts';
import type { FitAnswer } from '../fitting/fitAnswer.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { projectFiles } from './projectFiles.ts';
import { readJsonFile } from './readInputFile.ts';
import { archiveFolderOf, requireArchive, withArchive } from './withArchive.ts';
import { type WrittenFile, writeOutputFiles } from './writeOutputFiles.ts';

/** Reads a project's id from the command line. @throws CommandError `bad-project-id` */
export const projectIdOf = (text: string): ProjectId => {
  const parsed = projectIdSchema.safeParse(text);
  if (parsed.success) return parsed.data;
  throw new CommandError({
    code: 'bad-project-id',
    message: `"${text}" is not a project’s id. "footrail archive list" shows them.`,
    path: 'PROJECT',
  });
};

const fileLines = (files: readonly WrittenFile[]): string =>
  files.map(({ path, byteLength }) => `  ${path} (${byteLength} bytes)`).join('\n');

/**
 * `footrail issue`: writes a project's schedule, its workbook and its plans with the runs drawn on them. `--quote` names a
 * JSON file with settings of the quote (amounts in whole minor units, shares in basis points).
 */
export const issueCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text } = readArguments(args, {
    flags: ['out', 'archive', 'quote', 'paper'],
    names: ['PROJECT'],
    usage: 'footrail issue PROJECT --out DIR [--quote FILE] [--paper a4|letter] [--archive DIR] [--json]',
  });
  const projectId = projectIdOf(positionals[0] ?? '');
  const out = text('out');
  if (!out)
    throw new CommandError({ code: 'bad-arguments', message: '--out DIR is missing.', path: '--out' });
  const quoteFile = text('quote');
  const quote = quoteFile === undefined ? undefined : await readJsonFile(quoteFile);
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  return withArchive(folder, async ({ api }) => {
    const project = await callApi(api, 'open-project', { projectId });
    const made = await projectFiles(api, project, { quote, paper: text('paper') });
    const files = await writeOutputFiles(out, made, { replace: false });
    const { name } = project.document.job;
    return {
      exitCode: 0,
      value: { project: { projectId, name, revision: project.revision }, files },
      text: `${name}:\n${fileLines(files)}`,
    };
  });
};

interface DemoRun {
  readonly runId: string;
  readonly name: string;
  readonly status: string;
  readonly pieces: number;
  readonly leftoverMm: number;
}

/**
 * `footrail demo`: the whole job on the demo plan. Makes the project in an archive, fits each run, closes and opens the
 * archive again, and writes schedule, workbook and plans from what is then there.
 */
export const demoCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text } = readArguments(args, {
    flags: ['out', 'archive'],
    usage: 'footrail demo [--out DIR] [--archive DIR] [--json]',
  });
  const out = resolve(text('out') || 'footrail-demo');
  const folder = resolve(text('archive') || join(out, 'archive'));

  const made = await withArchive(folder, async ({ api }) => {
    const project = await callApi(api, 'open-demo', {});
    const runs: DemoRun[] = [];
    for (const runId of project.document.runIds) {
      const { fit } = await callApi(api, 'fit-run', { projectId: project.projectId, runId });
      const { status, alternatives } = fit as unknown as FitAnswer;
      const score = alternatives[0]?.score;
      runs.push({
        runId,
        name: project.document.runs[runId]?.name ?? runId,
        status,
        pieces: score?.pieces ?? 0,
        leftoverMm: score?.leftoverMm ?? 0,
      });
    }
    return { project, runs };
  });

  return withArchive(folder, async ({ api }) => {
    const { projectId } = made.project;
    const project = await callApi(api, 'open-project', { projectId });
    if (project.revision !== made.project.revision)
      throw new Error(`The demo came back at revision ${project.revision}, not ${made.project.revision}.`);
    const files = await writeOutputFiles(out, await projectFiles(api, project), { replace: true });
    const { name } = project.document.job;
    const runLines = made.runs.map(
      (run) => `  ${run.name}: ${run.status}, ${run.pieces} pieces, ${run.leftoverMm} mm left over`,
    );
    return {
      exitCode: made.runs.some(({ status }) => status === 'infeasible') ? 1 : 0,
      value: {
        project: { projectId, name, revision: project.revision },
        runs: made.runs,
        files,
        archive: folder,
      },
      text: [name, ...runLines, 'Written:', fileLines(files)].join('\n'),
    };
  });
};
