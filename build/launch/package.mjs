// `npm run package [-- OPTIONS]`: builds everything and packs the desktop program for this system; options go to
// electron-builder. It fetches Electron's binary, so it needs the network once.
import { ensureBuilt } from './ensureBuilt.mjs';
import { ensureInstalled } from './ensureInstalled.mjs';
import { inProject } from './projectPaths.mjs';
import { projectEnvironment, runProcess } from './runProcess.mjs';

try {
  const node = await ensureInstalled();
  await ensureBuilt(node, ['node', 'electron', 'renderer']);
  process.exitCode = await runProcess(
    node,
    [
      inProject('node_modules', 'electron-builder', 'cli.js'),
      '--config',
      inProject('build', 'package', 'electron-builder.json'),
      ...process.argv.slice(2),
    ],
    { env: projectEnvironment() },
  );
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
