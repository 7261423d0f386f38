import { spawn } from 'node:child_process';

/**
 * Runs a script in a process of its own and kills it (SIGKILL) so long after a line that begins with `from`, or after its
 * very start where that is null; answers the lines that it printed whole. Rejects where it ended by itself.
 */
export const linesUntilKilled = (
  script: string,
  args: readonly string[],
  instant: { readonly from: string | null; readonly afterMs: number },
): Promise<readonly string[]> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [script, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    let complaints = '';
    let timer: NodeJS.Timeout | null = null;
    const startTimer = (): void => {
      timer ??= setTimeout(() => child.kill('SIGKILL'), instant.afterMs);
    };
    if (instant.from === null) startTimer();
    child.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString();
      if (instant.from !== null && `\n${output}`.includes(`\n${instant.from}`)) startTimer();
    });
    child.stderr.on('data', (chunk: Buffer) => {
      complaints += chunk.toString();
    });
    child.on('close', (code, signal) => {
      if (timer !== null) clearTimeout(timer);
      if (signal === 'SIGKILL') resolve(output.split('\n').slice(0, -1));
      else reject(new Error(`The process ended with ${code}: ${complaints}`));
    });
  });
