import { readFile, stat } from 'node:fs/promises';
import type { z } from 'zod';
import { CommandError } from './commandAnswer.ts';

const reasons: Readonly<Record<string, readonly [code: string, words: string]>> = {
  ENOENT: ['file-missing', 'There is no such file'],
  ENOTDIR: ['file-missing', 'There is no such file'],
  EISDIR: ['file-unreadable', 'That is a folder, not a file'],
  EACCES: ['file-unreadable', 'This account may not read the file'],
  EPERM: ['file-unreadable', 'This account may not read the file'],
};

/** Node reads files up to 2 GiB at once; no input comes near. */
const fileBytesMost = 1024 * 1024 * 1024;

/**
 * Reads a file that was named on the command line.
 *
 * @throws CommandError `file-missing`, `file-unreadable`, `file-too-large`
 */
export const readInputFile = async (path: string): Promise<Uint8Array> => {
  try {
    const { size } = await stat(path);
    if (size > fileBytesMost)
      throw new CommandError({ code: 'file-too-large', message: `${path} is larger than 1 GiB.`, path });
    return await readFile(path);
  } catch (error) {
    if (error instanceof CommandError || !(error instanceof Error)) throw error;
    const { code = '' } = error as NodeJS.ErrnoException;
    const [kind, words] = reasons[code] ?? ['file-unreadable', `The file can’t be read (${code})`];
    throw new CommandError({ code: kind, message: `${words}: ${path}`, path });
  }
};

/** Reads a JSON file. @throws CommandError as {@link readInputFile}, or `malformed-json` */
export const readJsonFile = async (path: string): Promise<z.core.util.JSONType> => {
  const bytes = await readInputFile(path);
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new CommandError({
      code: 'malformed-json',
      message: `${path} is not JSON in UTF-8 (${reason}).`,
      path,
    });
  }
};
