import { StoreError } from '../../src/app/ports.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import { fixedNow, newProject, projectIdOf, seededBytes, sha256Of } from './editedSteps.ts';

/**
 * A process that takes plans in until the disk is full, then prints `{"accepted": N, "code": …, "stillReads": …}`.
 * Argument: the archive folder.
 */
const archive = await openArchive({ folder: process.argv[2] ?? '', now: fixedNow });
await newProject(archive.store, projectIdOf(1));
let accepted = 0;
let code = 'none';
for (let plan = 0; plan < 1000 && code === 'none'; plan += 1) {
  const bytes = seededBytes(100_000, plan);
  try {
    await archive.store.putPlan({ sha256: sha256Of(bytes), fileName: `${plan}.pdf`, bytes, at: fixedNow() });
    accepted += 1;
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    code = error.code;
  }
}
const stillReads = (await archive.store.loadProject(projectIdOf(1))) !== null;
const { state } = archive.health();
process.stdout.write(JSON.stringify({ accepted, code, stillReads, state }));
