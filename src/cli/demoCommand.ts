import { join, resolve } from 'node:path';
import { callApi } from './callApi.ts';
import type { CommandAnswer } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { issueInto } from './issueCommand.ts';
import { withArchive } from './withArchive.ts';

interface DemoRun {
  readonly runId: string;
  readonly name: string;
  readonly status: string;
  readonly pieces: number;
  readonly leftoverMm: number;
}

/**
 * `footrail demo`: the whole job on the demo plan. Makes the project in an archive, fits each run, closes and opens the
 * archive again, and issues what is then there.
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
      const { status, alternatives } = fit;
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
    const { issue, files } = await issueInto(api, projectId, out, {
      wishes: {},
      asZip: false,
      replace: true,
    });
    const { name } = project.document.job;
    const lines = files.map(({ path, byteLength }) => `  ${path} (${byteLength} bytes)`);
    const runLines = made.runs.map(
      (run) => `  ${run.name}: ${run.status}, ${run.pieces} pieces, ${run.leftoverMm} mm left over`,
    );
    return {
      exitCode: made.runs.some(({ status }) => status === 'infeasible') ? 1 : 0,
      value: {
        project: { projectId, name, revision: project.revision },
        runs: made.runs,
        issue,
        files,
        archive: folder,
      },
      text: [name, ...runLines, `Issue ${issue.number}, written:`, ...lines].join('\n'),
    };
  });
};
