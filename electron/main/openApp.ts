import { createApi } from '../../src/app/createApi.ts';
import { createNodePorts } from '../../src/host/nodePorts.ts';
import type { OpenApp } from './startShell.ts';

/**
 * Opens the archive in a folder and the API over it; a damaged archive opens for reading, with notices in its health.
 *
 * @throws StoreError with a sentence for the person where the archive cannot be opened
 */
export const openApp = async (archiveFolder: string): Promise<OpenApp> => {
  const { ports, archive } = await createNodePorts({ archiveDir: archiveFolder });
  return { api: createApi(ports), close: archive.close };
};
