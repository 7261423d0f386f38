import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { salvageProjects } from '../app/bundle/salvageProjects.ts';
import { archivePathOf } from '../archive/openArchive.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { archiveFolderOf, requireArchive, withArchive } from './withArchive.ts';

const usage = 'footrail archive salvage --out DIR [--archive DIR] [--json]';

/**
 * `footrail archive salvage`: brings whatever can still be read whole, projects with their changes, plans, issues and stock,
 * from a damaged archive into a new one. The damaged one is left as it is. Exit code 1 where something stayed behind.
 */
export const salvageArchive = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { text } = readArguments(args, { flags: ['archive', 'out'], usage });
  const out = text('out');
  if (!out)
    throw new CommandError({
      code: 'bad-arguments',
      message: `--out DIR is missing. Usage: ${usage}`,
      path: '--out',
    });
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  const target = resolve(out);
  if (existsSync(archivePathOf(target)))
    throw new CommandError({
      code: 'archive-exists',
      message: `There is an archive in ${target} already. Name a folder without one, so that nothing is mixed.`,
      path: '--out',
    });
  return withArchive(folder, ({ ports: from, archive }) =>
    withArchive(target, async ({ ports: to, archive: fresh }) => {
      const { projects, lost } = await salvageProjects(from.store, to.store, new Date().toISOString());
      const { problems } = await fresh.check();
      const saved = projects.filter(({ isSaved }) => isSaved);
      const isWhole = lost.length === 0 && projects.every((project) => project.lost.length === 0);
      return {
        exitCode: isWhole && problems.length === 0 ? 0 : 1,
        value: { out: target, projects, lost, problems, was: archive.health().problems },
        text: [
          `${saved.length} of ${projects.length} projects brought over into ${target}`,
          ...projects.flatMap(({ projectId, name, lost: parts }) =>
            parts.map((part) => `Stayed behind of ${name} (${projectId}): ${part}`),
          ),
          ...lost.map((part) => `Stayed behind: ${part}`),
          ...problems,
          'Projects that the damaged archive does not list any more are not among these: look into its backups.',
        ].join('\n'),
      };
    }),
  );
};
