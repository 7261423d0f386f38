import { closeSync, constants, fstatSync, openSync, readFileSync, writeFileSync } from 'node:fs';
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

/**
 * In a folder that others write to, a link or a pipe may lie there in its place: neither is followed, waited for, nor
 * written to. Windows has no such flags and, for the links, asks for a right that users don't have.
 */
const plainFileOnly = (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0);
const bytesMost = 16;

/** Runs `work` on the file, which is closed afterwards; throws where it can't be had or is no plain file. */
const withFile = <Value>(archiveFolder: string, flags: number, work: (file: number) => Value): Value => {
  const file = openSync(join(archiveFolder, fileName), flags | plainFileOnly, 0o600);
  try {
    if (!fstatSync(file).isFile()) throw new Error(`${fileName} is no plain file.`);
    return work(file);
  } finally {
    closeSync(file);
  }
};

/** The port, or null where none is kept. */
export const rememberedPort = (archiveFolder: string): number | null => {
  let text: string;
  try {
    text = withFile(archiveFolder, constants.O_RDONLY, (file) =>
      fstatSync(file).size > bytesMost ? '' : readFileSync(file, 'utf8'),
    );
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
    withFile(archiveFolder, constants.O_WRONLY | constants.O_CREAT | constants.O_TRUNC, (file) =>
      writeFileSync(file, `${port}\n`),
    );
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
