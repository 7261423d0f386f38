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

/** No contract nests deeper; below it nothing is looked at, so that no file exhausts the stack here. */
const deepestLevel = 50;

/** The place of a number beyond what a number holds (1e999 is read as infinite); null where there is none. */
const endlessNumber = (value: unknown, place: string, level = 0): string | null => {
  if (typeof value === 'number') return Number.isFinite(value) ? null : place;
  if (typeof value !== 'object' || value === null || level > deepestLevel) return null;
  for (const [key, inner] of Object.entries(value)) {
    const step = Array.isArray(value) ? `[${key}]` : `${place === '' ? '' : '.'}${key}`;
    const found = endlessNumber(inner, `${place}${step}`, level + 1);
    if (found !== null) return found;
  }
  return null;
};

const readJson = async (path: string): Promise<z.core.util.JSONType> => {
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

/** Reads a JSON file. @throws CommandError as {@link readInputFile}, `malformed-json`, or `number-too-large` */
export const readJsonFile = async (path: string): Promise<z.core.util.JSONType> => {
  const value = await readJson(path);
  const place = endlessNumber(value, '');
  if (place === null) return value;
  const message = `${place === '' ? path : place} is larger than any number that can be read`;
  throw new CommandError({ code: 'number-too-large', message, path: place });
};
