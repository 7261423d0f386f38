import { constants } from 'node:fs';
import { access, mkdir, writeFile } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { ownNames } from '../issue/package/ownNames.ts';
import { CommandError } from './commandAnswer.ts';

export interface OutputFile {
  readonly fileName: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

export interface WrittenFile {
  readonly path: string;
  readonly mediaType: string;
  readonly byteLength: number;
}

/** A name without a folder, whatever is in it. */
const plainName = (fileName: string): string => {
  const name = basename(fileName.replaceAll('\\', '/'));
  if (name === '' || name === '.' || name === '..') throw new Error(`"${fileName}" is no file name.`);
  return name;
};

const unwritable = (path: string, code: string): CommandError =>
  new CommandError({
    code: 'out-unwritable',
    message: `${path} can’t be written (${code}).`,
    path: '--out',
  });

/**
 * Makes a folder to write to where it is not there, and looks whether it can be written to.
 *
 * @throws CommandError `out-unwritable`
 */
export const makeOutputFolder = async (folder: string): Promise<void> => {
  const path = resolve(folder);
  try {
    await mkdir(path, { recursive: true });
    await access(path, constants.W_OK);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw unwritable(path, code);
  }
};

/**
 * Writes files into a folder, which is made where it is not there.
 *
 * @param replace whether files of the same name may be written over
 * @throws CommandError `file-exists`, `out-unwritable`
 */
export const writeOutputFiles = async (
  folder: string,
  files: readonly OutputFile[],
  { replace }: { readonly replace: boolean },
): Promise<readonly WrittenFile[]> => {
  const written: WrittenFile[] = [];
  const names = ownNames(files.map(({ fileName }) => plainName(fileName)));
  await makeOutputFolder(folder);
  let path = resolve(folder);
  try {
    for (const [index, { mediaType, bytes }] of files.entries()) {
      path = join(resolve(folder), names[index] ?? '');
      await writeFile(path, bytes, { flag: replace ? 'w' : 'wx' });
      written.push({ path, mediaType, byteLength: bytes.byteLength });
    }
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw code === 'EEXIST'
      ? new CommandError({
          code: 'file-exists',
          message: `${path} is there already and was left as it is. Choose another folder.`,
          path: '--out',
        })
      : unwritable(path, code);
  }
  return written;
};
