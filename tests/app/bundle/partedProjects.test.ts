import { describe, expect, it, onTestFinished } from 'vitest';
import type { Command } from '../../../src/document/command.ts';
import type { ProjectId } from '../../../src/document/ids.ts';
import { createNodePorts } from '../../../src/host/nodePorts.ts';
import { temporaryFolder } from '../../archive/editedArchive.ts';
import { type ApiForTest, apiForTest } from '../portsForTest.ts';
import { bundledProject } from './bundledProject.ts';

const client = (name: string): Command => ({ type: 'change-job', changes: { client: name } });
const site = (name: string): Command => ({ type: 'change-job', changes: { site: name } });

const change = async ({ done }: ApiForTest, projectId: ProjectId, ...commands: readonly Command[]) => {
  let { revision } = await done('open-project', { projectId });
  for (const command of commands)
    ({ revision } = await done('apply-command', { projectId, revision, command }));
  return revision;
};
const jobOf = async ({ done }: ApiForTest, projectId: ProjectId) =>
  (await done('open-project', { projectId })).document.job;

/** One project in two archives of their own, the second on disk, that both have gone on with. */
const parted = async () => {
  const here = await bundledProject();
  const { ports, archive } = await createNodePorts({ archiveDir: temporaryFolder() });
  onTestFinished(() => archive.close());
  const there = apiForTest({ store: ports.store, freshId: () => 'copied', who: () => 'ines' });
  const { projectId } = here;
  await there.done('import-project', { bytes: here.file.bytes });
  const common = here.revision;
  await change(here, projectId, client('Salt Lane'));
  await change(there, projectId, client('Northgate'), site('3 Dock Road'));
  const { bytes } = await there.done('export-project', { projectId });
  return { here, there, archive, projectId, common, bytes };
};

describe('a project file whose project has parted from this archive’s', () => {
  it('is shown beside it: what both have, what each did, what differs', async () => {
    const { here, projectId, common, bytes } = await parted();
    const before = await here.done('project-history', { projectId });
    expect(await here.done('compare-project-file', { bytes })).toMatchObject({
      relation: 'parted',
      common,
      mine: { changes: 1, lastChanges: [{ by: 'mara' }] },
      theirs: { changes: 2, lastChanges: [{ by: 'ines' }, { by: 'ines' }] },
      differences: [
        { what: 'Client', mine: 'Salt Lane', theirs: 'Northgate' },
        { what: 'Site', theirs: '3 Dock Road' },
      ],
      runs: [],
    });
    expect(await here.api.call('import-project', { bytes })).toMatchObject({
      ok: false,
      error: { code: 'bundle-project-differs' },
    });
    expect(await here.done('project-history', { projectId })).toEqual(before);
  });

  it('is taken over with this archive’s state in the history, once', async () => {
    const { here, there, projectId, common, bytes } = await parted();
    const taken = await here.done('import-project', { bytes, choice: 'theirs' });
    expect(taken.outcome).toBe('theirs-taken');
    const theirs = (await there.done('open-project', { projectId })).document;
    expect((await here.done('open-project', { projectId })).document).toEqual(theirs);
    const { changes } = await here.done('project-history', { projectId });
    expect(changes).toHaveLength(common + 2);
    // Taken in again, it changes nothing.
    expect((await here.done('import-project', { bytes, choice: 'theirs' })).outcome).toBe('there-already');
    expect((await here.done('import-project', { bytes })).outcome).toBe('there-already');
    expect((await here.done('project-history', { projectId })).changes).toHaveLength(common + 2);
    // One step back is what was there before.
    await here.done('undo', { projectId, revision: common + 2 });
    expect(await jobOf(here, projectId)).toMatchObject({ client: 'Salt Lane' });
    expect((await jobOf(here, projectId)).site).not.toBe('3 Dock Road');
  });

  it('is taken over on disk too, and the archive stays sound', async () => {
    const { here, there, archive, projectId } = await parted();
    const { bytes } = await here.done('export-project', { projectId });
    expect((await there.done('import-project', { bytes, choice: 'theirs' })).outcome).toBe('theirs-taken');
    expect((await there.done('open-project', { projectId })).document).toEqual(
      (await here.done('open-project', { projectId })).document,
    );
    expect((await archive.check()).problems).toEqual([]);
  });

  it('comes in beside it as a project of its own', async () => {
    const { here, there, projectId, bytes } = await parted();
    const { bytes: mine } = await here.done('export-project', { projectId });
    const copy = await there.done('import-project', { bytes: mine, choice: 'copy' });
    expect(copy).toMatchObject({ outcome: 'taken-in-as-copy' });
    expect(await jobOf(there, copy.projectId)).toMatchObject({ client: 'Salt Lane' });
    expect(await jobOf(there, projectId)).toMatchObject({ client: 'Northgate' });
    expect((await there.done('import-project', { bytes })).outcome).toBe('there-already');
  });
});

describe('a project file that goes on from where this archive’s project is', () => {
  it('lets it go on, change by change, without a question', async () => {
    const here = await bundledProject();
    const there = apiForTest();
    const { projectId } = here;
    await there.done('import-project', { bytes: here.file.bytes });
    await change(here, projectId, client('Salt Lane'), site('3 Dock Road'), client('Umber'));
    const { bytes } = await here.done('export-project', { projectId });
    expect((await there.done('compare-project-file', { bytes })).relation).toBe('ahead');
    expect((await there.done('import-project', { bytes })).outcome).toBe('gone-on');
    for (const method of ['open-project', 'project-history'] as const)
      expect(await there.done(method, { projectId })).toEqual(await here.done(method, { projectId }));
    expect((await there.done('import-project', { bytes })).outcome).toBe('there-already');
    expect((await there.done('import-project', { bytes: here.file.bytes })).outcome).toBe('there-already');
  });
});
