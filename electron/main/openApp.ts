import { createApi } from '../../src/app/createApi.ts';
import { keepBackingUp } from '../../src/host/keepBackingUp.ts';
import { createNodePorts } from '../../src/host/nodePorts.ts';
import type { OpenApp } from './startShell.ts';

/**
 * Opens the archive in a folder and the API over it, and backs it up as the loopback host does. A damaged archive opens
 * for reading; what is wrong with it, and what to do, is among the notices.
 *
 * @param warn is told in a sentence when a backup could not be made
 * @throws StoreError with a sentence for the person where the archive cannot be opened
 */
export const openApp = async (archiveFolder: string, warn: (line: string) => void): Promise<OpenApp> => {
  const { ports, archive } = await createNodePorts({ archiveDir: archiveFolder });
  const { advice, notices } = archive.health();
  const endBackups = keepBackingUp(archive, warn);
  return {
    api: createApi(ports),
    notices: [advice, ...notices].filter((line) => line !== ''),
    close: async () => {
      await endBackups();
      archive.close();
    },
  };
};
