import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rebuildHistory } from '../../src/archive/rebuildHistory.ts';
import { emptyDocument } from '../../src/document/projectDocument.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { changesOf, edit, fixedNow, newProject, projectIdOf } from './editedSteps.ts';

describe('projects in the archive', () => {
  it('come back exactly as left after the archive was closed and opened again', async () => {
    const folder = temporaryFolder();
    const first = await openForTest(folder);
    const edited = await edit(first.store, await newProject(first.store, projectIdOf(1)), 120, 5);
    first.close();
    const { store, health } = await openForTest(folder);
    expect(health().state).toBe('sound');
    expect(await store.loadProject(projectIdOf(1))).toEqual({
      projectId: projectIdOf(1),
      revision: 120,
      document: edited.document,
      history: edited.history,
    });
  });

  it('keep their undo and redo steps through random editing', async () => {
    const { store } = await openForTest(temporaryFolder());
    let serial = 0;
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 60 }), fc.nat(1e6), async (count, seed) => {
        serial += 1;
        const edited = await edit(store, await newProject(store, projectIdOf(serial)), count, seed);
        const loaded = await store.loadProject(projectIdOf(serial));
        expect(loaded?.history).toEqual(edited.history);
        expect(loaded?.document).toEqual(edited.document);
      }),
      { seed: 11, numRuns: 20 },
    );
  });

  it('answer a conflict and change nothing when the revision has moved on', async () => {
    const { store } = await openForTest(temporaryFolder());
    const project = await newProject(store, projectIdOf(1));
    const edited = await edit(store, project, 3, 1);
    const { event, after } = changesOf(project, 2).next().value!;
    const answer = await store.appendEvent({
      projectId: projectIdOf(1),
      expectedRevision: 1,
      event,
      document: after.document,
    });
    expect(answer).toEqual({ ok: false, revision: 3 });
    expect((await store.loadProject(projectIdOf(1)))?.document).toEqual(edited.document);
  });

  it('are listed by last change even where the clock was set back', async () => {
    const { store } = await openForTest(temporaryFolder());
    const document = emptyDocument('Quay', { id: 'r', version: 1 });
    await store.createProject({ projectId: projectIdOf('early'), document, at: '2031-01-01T00:00:00.000Z' });
    await store.createProject({ projectId: projectIdOf('late'), document, at: '2021-01-01T00:00:00.000Z' });
    expect((await store.listProjects()).map((row) => row.projectId)).toEqual([
      projectIdOf('late'),
      projectIdOf('early'),
    ]);
  });

  it('are summed up in the list by their last document', async () => {
    const { store } = await openForTest(temporaryFolder());
    const edited = await edit(store, await newProject(store, projectIdOf(1)), 60, 3);
    const [row] = await store.listProjects();
    expect(row).toMatchObject({
      projectId: projectIdOf(1),
      name: edited.document.job.name,
      client: edited.document.job.client,
      state: edited.document.job.state,
      sheets: edited.document.sheetIds.length,
      runs: edited.document.runIds.length,
      createdAt: fixedNow(),
    });
  });

  it('leave the list when removed, once', async () => {
    const { store } = await openForTest(temporaryFolder());
    await newProject(store, projectIdOf(1));
    expect(await store.removeProject(projectIdOf(1), fixedNow())).toBe(true);
    expect(await store.removeProject(projectIdOf(1), fixedNow())).toBe(false);
    expect(await store.listProjects()).toEqual([]);
    expect(await store.loadProject(projectIdOf(1))).toBeNull();
    await expect(
      edit(store, { ...(await newProject(store, projectIdOf(2))), projectId: projectIdOf(1) }, 1, 1),
    ).rejects.toMatchObject({
      code: 'project-missing',
    });
  });

  it('refuse a second project of the same id', async () => {
    const { store } = await openForTest(temporaryFolder());
    await newProject(store, projectIdOf(1));
    await expect(newProject(store, projectIdOf(1))).rejects.toMatchObject({ code: 'project-exists' });
  });

  it('take names that UTF-8 can only hold in part, and stay sound', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const name = 'Café \u0000 "\ud800" 🍸 \u2028';
    await newProject(archive.store, projectIdOf(1), name);
    expect((await archive.store.loadProject(projectIdOf(1)))?.document).toMatchObject({ job: { name } });
    archive.close();
    const again = await openForTest(folder);
    expect(again.health().state).toBe('sound');
    expect((await again.store.listProjects())[0]?.name).toBe('Café \u0000 "\ufffd" 🍸 \u2028');
  });
});

describe('a rebuilt history', () => {
  it('forgets what was undone when a new command comes', () => {
    const patch = { forward: [], inverse: [] };
    const history = rebuildHistory([
      { kind: 'command', label: 'a', patch },
      { kind: 'command', label: 'b', patch },
      { kind: 'undo', label: 'b', patch },
      { kind: 'command', label: 'c', patch },
      { kind: 'undo', label: 'c', patch },
    ]);
    expect(history.done.map((step) => step.label)).toEqual(['a']);
    expect(history.undone.map((step) => step.label)).toEqual(['c']);
  });

  it('throws where an undo has nothing to take back', () => {
    const patch = { forward: [], inverse: [] };
    expect(() => rebuildHistory([{ kind: 'undo', label: 'a', patch }])).toThrow('undo');
  });
});
