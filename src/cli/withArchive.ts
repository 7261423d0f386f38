import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Api, createApi } from '../app/createApi.ts';
import { StoreError } from '../app/ports.ts';
import { type Archive, archivePathOf } from '../archive/openArchive.ts';
import { defaultArchiveFolder } from '../host/archiveFolder.ts';
import { createNodePorts, type NodePorts } from '../host/nodePorts.ts';
import { CommandError } from './commandAnswer.ts';

export interface OpenedArchive extends NodePorts {
  readonly api: Api;
  readonly archive: Archive;
}

/** The archive folder that a command works on: `--archive`, else `FOOTRAIL_ARCHIVE`, else the usual place. */
export const archiveFolderOf = (flag: string | undefined): string => resolve(flag || defaultArchiveFolder());

/** Refuses a folder that holds no archive, so that a mistyped one is not quietly made into an empty archive. */
export const requireArchive = (folder: string): void => {
  if (!existsSync(archivePathOf(folder)))
    throw new CommandError({
      code: 'archive-missing',
      message: `There is no archive in ${folder}. Name its folder with --archive.`,
      path: '--archive',
    });
};

/** Turns the store's errors into the command's. */
export const refusedByStore = (error: unknown): unknown =>
  error instanceof StoreError
    ? new CommandError({ code: error.code, message: error.message, path: '--archive' })
    : error;

/** Opens an archive for the length of `work` and closes it whatever happens. @throws CommandError for its troubles */
export const withArchive = async <Value>(
  folder: string,
  work: (opened: OpenedArchive) => Promise<Value>,
): Promise<Value> => {
  try {
    const { ports, archive } = await createNodePorts({ archiveDir: folder });
    try {
      return await work({ ports, archive, api: createApi(ports) });
    } finally {
      archive.close();
    }
  } catch (error) {
    throw refusedByStore(error);
  }
};
