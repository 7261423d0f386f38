import { runFootrail } from './runFootrail.ts';

/** Prints all of a text; a reader that has seen enough (`| head`) is no error. */
const print = (stream: NodeJS.WriteStream, text: string): void => {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  if (text !== '') stream.write(text);
};

try {
  const { exitCode, stdout, stderr } = await runFootrail(process.argv.slice(2));
  print(process.stdout, stdout);
  print(process.stderr, stderr);
  process.exitCode = exitCode;
} catch (error) {
  print(
    process.stderr,
    `footrail: a fault of the program: ${error instanceof Error ? error.stack : String(error)}\n`,
  );
  // Not 2: the input may be good. 70 is "internal software error" in BSD's sysexits.
  process.exitCode = 70;
}
