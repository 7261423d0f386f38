import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const builtHost = fileURLToPath(new URL('../../build/out/host.mjs', import.meta.url));

/** The loopback host as `npm start` runs it, in a process of its own. */
export interface HostProcess {
  /** The address with its one-time token, as printed. */
  readonly url: string;
  /** Ends it as Ctrl+C does and waits until it has gone. */
  readonly stop: () => Promise<void>;
  /** Ends it at once, as a crash or a power cut would. */
  readonly kill: () => Promise<void>;
}

const gone = (process: ChildProcess): Promise<void> =>
  process.exitCode !== null || process.signalCode !== null
    ? Promise.resolve()
    : new Promise((resolve) => process.once('exit', () => resolve()));

/** Starts the built host on an archive folder and waits for the address that it prints. */
export const startHostProcess = async (
  archiveDir: string,
  more: readonly string[] = [],
): Promise<HostProcess> => {
  const host = spawn(process.execPath, [builtHost, '--archive', archiveDir, ...more], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let printed = '';
  let warned = '';
  host.stderr.on('data', (chunk) => {
    warned += chunk;
  });
  const url = await new Promise<string>((resolve, reject) => {
    host.stdout.on('data', (chunk) => {
      printed += chunk;
      const address = /http:\/\/127\.0\.0\.1:\d+\/\S*/.exec(printed)?.[0];
      if (address) resolve(address);
    });
    host.once('exit', (code) => reject(new Error(`The host ended with ${code}: ${printed}${warned}`)));
  });
  const end = (signal: NodeJS.Signals) => async () => {
    host.kill(signal);
    await gone(host);
  };
  return { url, stop: end('SIGTERM'), kill: end('SIGKILL') };
};
