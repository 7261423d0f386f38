import { StoreError } from '../../src/app/ports.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import { fixedNow, newProject, projectIdOf } from './editedSteps.ts';

/**
 * A process without the right to write: opens an archive and prints what it could do with it, as JSON. Argument: the
 * archive folder.
 */
const codeOf = async (work: () => Promise<unknown>): Promise<string> => {
  try {
    await work();
    return 'done';
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    return error.code;
  }
};

const folder = process.argv[2] ?? '';
const found: Record<string, unknown> = {};
found['open'] = await codeOf(async () => {
  const archive = await openArchive({ folder, now: fixedNow });
  found['state'] = archive.health().state;
  found['revision'] = (await archive.store.loadProject(projectIdOf(1)))?.revision;
  found['write'] = await codeOf(() => newProject(archive.store, projectIdOf(2)));
  found['backUp'] = await codeOf(archive.backUp);
  archive.close();
});
process.stdout.write(JSON.stringify(found));
