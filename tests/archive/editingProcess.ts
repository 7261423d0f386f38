import { projectFactsOf } from '../../src/app/search/projectFacts.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { changesOf, fixedNow, newProject, projectIdOf, seededBytes, sha256Of } from './editedSteps.ts';

/**
 * A process to be killed: edits project `1` of an archive as fast as it can, takes a plan in now and then, backs up all
 * the while, and prints a line for each thing accepted, after it was: `open`, `revision N SHA256-OF-DOCUMENT`,
 * `plan SHA256`. Arguments: folder, seed.
 */
const [folder = '', seedText = '0'] = process.argv.slice(2);
const seed = Number(seedText);

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const archive = await openArchive({ folder, now: fixedNow });
const { store } = archive;
say('open');
const projectId = projectIdOf(1);
const stored = await store.loadProject(projectId);
const start = stored
  ? { ...stored, document: stored.document as ProjectDocument }
  : await newProject(store, projectId);

const backUpForEver = async (): Promise<void> => {
  for (;;) {
    await archive.backUp();
    await new Promise(setImmediate);
  }
};
void backUpForEver();

let expectedRevision = start.revision;
for (const { event, after } of changesOf(start, seed)) {
  const { document } = after;
  const facts = projectFactsOf(document);
  const appended = await store.appendEvent({ projectId, expectedRevision, event, document, facts });
  if (!appended.ok)
    throw new Error(`Refused at revision ${expectedRevision}, which is at ${appended.revision}.`);
  expectedRevision = appended.revision;
  say(`revision ${expectedRevision} ${sha256Of(Buffer.from(JSON.stringify(document)))}`);
  if (expectedRevision % 7 === 0) {
    const bytes = seededBytes(40_000, expectedRevision + seed);
    await store.putPlan({ sha256: sha256Of(bytes), fileName: 'plan.pdf', bytes, at: fixedNow() });
    say(`plan ${sha256Of(bytes)}`);
  }
  if (expectedRevision % 3 === 0) await new Promise(setImmediate);
}
