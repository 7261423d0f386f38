// `npm run build`: installs what is missing and builds every bundle whose sources changed.
import { ensureBuilt } from './ensureBuilt.mjs';
import { ensureInstalled } from './ensureInstalled.mjs';

try {
  await ensureBuilt(await ensureInstalled(), ['node', 'electron', 'renderer']);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
