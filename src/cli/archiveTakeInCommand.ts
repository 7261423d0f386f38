import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { ApiOutput } from '../app/apiMethods.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { readInputFile } from './readInputFile.ts';
import { archiveFolderOf, withArchive } from './withArchive.ts';

const usage = 'footrail archive take-in FOLDER|PLAN.pdf [--archive DIR] [--json]';

/** Every PDF in a folder and the folders in it, by name; a file is itself. */
const plansAt = async (path: string): Promise<readonly string[]> => {
  const found = await stat(path).catch((error: unknown) => {
    const { code = '' } = error as NodeJS.ErrnoException;
    throw new CommandError({
      code: 'file-missing',
      message: `There is nothing to read at ${path} (${code}).`,
      path,
    });
  });
  if (!found.isDirectory()) return [path];
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && /\.pdf$/i.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
};

type Taken = ApiOutput<'take-in-enquiry'>;
type FileOutcome =
  | ({ readonly path: string } & Taken)
  | { readonly path: string; readonly outcome: 'refused'; readonly code: string; readonly message: string };

const wordsOf = (file: FileOutcome): string => {
  if (file.outcome === 'refused') return `${file.path}: not taken in: ${file.message}`;
  if (file.outcome === 'known') return `${file.path}: is the plan of ${file.name} already`;
  return `${file.path}: ${file.name}${file.unread === null ? '' : ` (its text can’t be sought: ${file.unread})`}`;
};

/**
 * `footrail archive take-in`: makes an enquiry of each plan in a folder. A file that fails says why and the rest go on;
 * Ctrl+C ends it after the file at hand, and what was taken in stays. Says how far it is on stderr. Exit code 1 where a
 * file was not taken in.
 */
export const takeInPlans = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text } = readArguments(args, { flags: ['archive'], names: ['FOLDER'], usage });
  const paths = await plansAt(positionals[0] ?? '');
  if (paths.length === 0)
    throw new CommandError({
      code: 'no-plans',
      message: 'There is no PDF in that folder.',
      path: positionals[0] ?? '',
    });
  const controller = new AbortController();
  const stop = (): void => controller.abort();
  process.once('SIGINT', stop);
  try {
    return await withArchive(archiveFolderOf(text('archive')), async ({ api }) => {
      const files: FileOutcome[] = [];
      for (const [index, path] of paths.entries()) {
        if (controller.signal.aborted) break;
        process.stderr.write(`${index + 1} of ${paths.length}: ${basename(path)}\n`);
        try {
          const bytes = await readInputFile(path);
          const taken = await callApi(api, 'take-in-enquiry', {
            fileName: basename(path).slice(0, 300),
            bytes,
          });
          files.push({ path, ...taken });
        } catch (error) {
          if (!(error instanceof CommandError)) throw error;
          files.push({ path, outcome: 'refused', code: error.code, message: error.message });
        }
      }
      const refused = files.filter(({ outcome }) => outcome === 'refused').length;
      const isWhole = files.length === paths.length;
      return {
        exitCode: refused === 0 && isWhole ? 0 : 1,
        value: { of: paths.length, stopped: !isWhole, files },
        text: [
          ...files.map(wordsOf),
          `${files.length - refused} of ${paths.length} taken in${isWhole ? '' : '; stopped'}.`,
        ].join('\n'),
      };
    });
  } finally {
    process.off('SIGINT', stop);
  }
};
