import { fileURLToPath } from 'node:url';
import { createApi } from '../app/createApi.ts';
import { hostUsage, parseHostArguments } from './hostArguments.ts';
import { keepBackingUp } from './keepBackingUp.ts';
import { startLoopbackHost } from './loopbackHost.ts';
import { createNodePorts } from './nodePorts.ts';
import { openBrowser } from './openBrowser.ts';
import { startOnPort } from './rememberedPort.ts';

/** The built renderer beside this bundle, or, run from source, where the bundler puts it. */
const rendererDir = fileURLToPath(
  import.meta.url.endsWith('.ts')
    ? new URL('../../build/out/renderer', import.meta.url)
    : new URL('./renderer', import.meta.url),
);

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const warn = (line: string): void => void process.stderr.write(`${line}\n`);
const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const start = async (): Promise<void> => {
  const parsed = parseHostArguments(process.argv.slice(2));
  if (!parsed.ok) {
    warn(`${parsed.message}\n${hostUsage}`);
    process.exitCode = 2;
    return;
  }
  const { archiveDir, demo, open, port } = parsed.value;
  const { ports, archive } = await createNodePorts({ archiveDir });
  const { advice, notices } = archive.health();
  for (const line of [advice, ...notices]) if (line !== '') warn(line);
  const api = createApi(ports);
  let place = '';
  if (demo) {
    const opened = await api.call('open-demo', {});
    if (opened.ok) place = `#project=${(opened.value as { readonly projectId: string }).projectId}`;
    else warn(`The demo project could not be opened: ${opened.error.message}`);
  }
  const onDefect = (error: unknown): void =>
    warn(error instanceof Error ? (error.stack ?? error.message) : String(error));
  const host = await startOnPort(
    { asked: port, archiveFolder: archive.folder },
    (onPort) => startLoopbackHost({ api, rendererDir, port: onPort, onDefect }),
    ({ address }) => Number(new URL(address).port),
  );
  const endBackups = keepBackingUp(archive, warn);
  const url = `${host.url}${place}`;
  print(`Footrail is at ${url}`);
  print('The address is good once. Press Ctrl+C to end. Another port: --port N');
  if (open && !(await openBrowser(url))) print('No browser could be opened here: open the address yourself.');

  let isEnding = false;
  const end = async (): Promise<void> => {
    if (isEnding) return;
    isEnding = true;
    await host.close();
    await endBackups();
    archive.close();
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
    process.on(signal, () => {
      end().catch((error: unknown) => {
        warn(wordsOf(error));
        process.exitCode = 1;
      });
    });
};

start().catch((error: unknown) => {
  warn(`Footrail could not start: ${wordsOf(error)}`);
  process.exitCode = 2;
});
