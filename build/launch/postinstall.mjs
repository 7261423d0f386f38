// The root package's own install script: links the `footrail` command and builds what it needs.
import { canBundle, ensureBuilt } from './ensureBuilt.mjs';
import { recordInstall } from './ensureInstalled.mjs';
import { linkCommand } from './linkCommand.mjs';
import { findNode, projectRoot } from './projectPaths.mjs';

const node = findNode();
if (!linkCommand(projectRoot)) {
  console.log('footrail: no node_modules here, so no command to link');
} else if (!canBundle()) {
  console.log('footrail: development dependencies are left out, so the command line is not built');
} else if (node === undefined) {
  console.log(
    'footrail: the bundled Node is not there (are install scripts switched off?); building on first use',
  );
} else {
  recordInstall();
  await ensureBuilt(node, ['node']);
}
