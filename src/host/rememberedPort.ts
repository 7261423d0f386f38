import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The port that the host of an archive had last, kept beside the archive. A window that is still open after a crash
 * finds the next host at its own address. The port is no secret and lets nobody in: each host makes a token and a
 * session secret of its own. Whoever opens the newly printed address gets its cookie, and windows of the same browser
 * that were open before then have it too.
 */
const fileName = 'host-port';
const portLeast = 1024;
const portMost = 65_535;

/** The port, or null where none is kept. */
export const rememberedPort = (archiveFolder: string): number | null => {
  let text: string;
  try {
    text = readFileSync(join(archiveFolder, fileName), 'utf8');
  } catch {
    // Whatever keeps it from being read, any free port will do.
    return null;
  }
  const port = /^\d{4,5}\n?$/.test(text) ? Number(text) : 0;
  return port >= portLeast && port <= portMost ? port : null;
};

/** Keeps the port for the next host. False where the folder can't be written: then the next one has another port. */
export const rememberPort = (archiveFolder: string, port: number): boolean => {
  try {
    writeFileSync(join(archiveFolder, fileName), `${port}\n`, { mode: 0o600 });
    return true;
  } catch {
    return false;
  }
};

const isTaken = (error: unknown): boolean =>
  ['EADDRINUSE', 'EACCES', 'EADDRNOTAVAIL'].includes((error as NodeJS.ErrnoException).code ?? '');

/**
 * Starts on the port that was asked for; else on the one that the archive's last host had; else, where that is taken,
 * on any free one.
 *
 * @param asked null where none was asked for, 0 for any free one
 * @throws Error with a sentence where the port that was asked for is taken
 */
export const startOnPort = async <Started>(
  { asked, archiveFolder }: { readonly asked: number | null; readonly archiveFolder: string },
  start: (port: number) => Promise<Started>,
  portOf: (started: Started) => number,
): Promise<Started> => {
  if (asked !== null) {
    try {
      return await start(asked);
    } catch (error) {
      if (!isTaken(error)) throw error;
      throw new Error(
        `port ${asked} can’t be had: another program has it, or it is kept for the system. Name another with --port, or leave it out.`,
      );
    }
  }
  const last = rememberedPort(archiveFolder);
  if (last !== null) {
    try {
      return await start(last);
    } catch (error) {
      if (!isTaken(error)) throw error;
      // Another host on this archive may have it, and be found there again.
      return start(0);
    }
  }
  const started = await start(0);
  rememberPort(archiveFolder, portOf(started));
  return started;
};
