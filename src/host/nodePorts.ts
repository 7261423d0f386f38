import { hash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { userInfo } from 'node:os';
import { pathToFileURL } from 'node:url';
import type { Ports, Store } from '../app/ports.ts';
import { type Archive, openArchive } from '../archive/openArchive.ts';
import { createFreshIds } from './freshIds.ts';
import { createThreadedPlanReader } from './planReader.ts';

/** Liberation Sans (SIL Open Font License 1.1), as pdfjs-dist carries it for the standard fonts of PDF. */
const font = async (): Promise<Uint8Array> => {
  const pdfjs = createRequire(import.meta.url).resolve('pdfjs-dist/package.json');
  return readFile(new URL('./standard_fonts/LiberationSans-Regular.ttf', pathToFileURL(pdfjs)));
};

const now = (): string => new Date().toISOString();

/** The account's name; none where the system knows none for it (an account without an entry in its user list). */
const who = (): string | undefined => {
  try {
    return userInfo().username.slice(0, 100) || undefined;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code?.startsWith('ERR_SYSTEM_ERROR')) return undefined;
    throw error;
  }
};

/** The ports over a given store: reading threads, the system's clock, fresh ids, Node's SHA-256. */
export const createPortsOver = (store: Store): Ports => ({
  store,
  plans: createThreadedPlanReader(),
  now,
  who,
  freshId: createFreshIds(Date.now),
  font,
  sha256: async (bytes) => hash('sha256', bytes, 'hex'),
});

/** The ports and the archive that their store belongs to; the archive is to be closed at the end. */
export interface NodePorts {
  readonly ports: Ports;
  readonly archive: Archive;
}

/**
 * Opens the archive in a folder and makes the ports over it.
 *
 * @throws StoreError as `openArchive` does
 */
export const createNodePorts = async ({
  archiveDir,
}: {
  readonly archiveDir: string;
}): Promise<NodePorts> => {
  const archive = await openArchive({ folder: archiveDir, now });
  return { ports: createPortsOver(archive.store), archive };
};
