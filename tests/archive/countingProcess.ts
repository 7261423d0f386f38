import { setTimeout as pause } from 'node:timers/promises';
import { openArchive } from '../../src/archive/openArchive.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { fixedNow, projectIdOf } from './editedSteps.ts';

/**
 * A process that counts up the number in a project's job number as often as it is told, loading and trying again on
 * each conflict, and prints how many conflicts there were. Arguments: folder, count.
 */
const [folder = '', count = '0'] = process.argv.slice(2);
const { store, close } = await openArchive({ folder, now: fixedNow });
let conflicts = 0;
for (let done = 0; done < Number(count); ) {
  const project = await store.loadProject(projectIdOf(1));
  if (!project) throw new Error('The project is not there.');
  const document = project.document as ProjectDocument;
  const number = String(Number(document.job.number) + 1);
  const applied = applyCommand(document, { type: 'change-job', changes: { number } });
  if (!applied.ok) throw new Error(applied.refusal.message);
  // Room for the other process to come between.
  await pause(Math.random() * 2);
  const appended = await store.appendEvent({
    projectId: projectIdOf(1),
    expectedRevision: project.revision,
    event: { kind: 'command', label: applied.label, patch: applied.patch, at: fixedNow() },
    document: applied.document,
  });
  if (appended.ok) done += 1;
  else conflicts += 1;
}
close();
process.stdout.write(String(conflicts));
