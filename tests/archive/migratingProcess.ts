import { openArchive } from '../../src/archive/openArchive.ts';
import { fixedNow } from './editedSteps.ts';
import { laterMigrations } from './laterMigrations.ts';

/** A process to be killed while it brings an archive up to date. Argument: the archive folder. */
process.stdout.write('start\n');
await openArchive({ folder: process.argv[2] ?? '', now: fixedNow, migrations: laterMigrations });
process.stdout.write('open\n');
// Until it is killed.
setInterval(() => {}, 1000);
