import { describe, expect, it } from 'vitest';
import { type ApiClient, CallRefused } from '../../../renderer/api/apiClient.ts';
import { openSession } from '../../../renderer/project/projectSession.ts';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { Command } from '../../../src/document/command.ts';
import type { ProjectId, RunId, SheetId, VertexId } from '../../../src/document/ids.ts';
import { reversePatch } from '../../../src/document/patch.ts';
import { emptyDocument } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';

const sheetId = 'sheet-1' as SheetId;

const addSheet: Command = {
  type: 'add-sheet',
  sheet: {
    id: sheetId,
    name: 'Cellar',
    planSha256: 'a'.repeat(64),
    planFileName: 'cellar.pdf',
    pageNumber: 1,
    userUnit: 1,
    acceptedScale: null,
    layers: {},
  },
};
const addRun = (number: number): Command => ({
  type: 'add-run',
  run: {
    ...runDefaultsOf(demoRange),
    id: `run-${number}` as RunId,
    sheetId,
    name: `Run ${number}`,
    pickUncertaintyPt: 0.5,
    frontLine: [0, 300].map((x) => ({
      id: `vertex-${number}x${x}` as VertexId,
      at: paperPoint(x, number * 50),
      treatment: null,
    })),
  },
});
const deepen = (number: number, depthMm: number): Command => ({
  type: 'change-run',
  runId: `run-${number}` as RunId,
  changes: { depthMm },
});

/** An archive in memory behind the API's calls, which can fall silent before or after it has carried a call out. */
const archive = () => {
  const made = emptyDocument('Lock Keeper', { id: demoRange.id, version: demoRange.version });
  let document = made;
  let revision = 1;
  const done: { label: string; patch: ReturnType<typeof reversePatch> }[] = [];
  let silent: 'before' | 'after' | null = null;
  const calls: string[] = [];
  const gone = () => new CallRefused({ code: 'host-unreachable', message: 'The host does not answer.' });
  const labels = () => ({ undoLabel: done.at(-1)?.label ?? null, redoLabel: null });
  const opened = () => ({ projectId: 'project-1' as ProjectId, revision, document, ...labels() });
  const take = (command: Command) => {
    const applied = applyCommand(document, command);
    if (!applied.ok) throw new CallRefused({ code: applied.refusal.code, message: applied.refusal.message });
    document = applied.document;
    revision += 1;
    done.push({ label: applied.label, patch: reversePatch(applied.patch) });
    return applied.patch;
  };
  const carry = (method: string, input: { revision?: number; command?: Command }): unknown => {
    if (method === 'open-project') return opened();
    if (input.revision !== revision)
      throw new CallRefused({ code: 'revision-conflict', message: 'Changed elsewhere.' });
    if (method === 'apply-command' && input.command) {
      const patch = take(input.command);
      return { revision, patch, ...labels() };
    }
    throw new CallRefused({ code: 'nothing-to-undo', message: 'There is nothing to undo.' });
  };
  const api = {
    call: async (method: string, input: object) => {
      calls.push(method);
      if (silent === 'before') throw gone();
      const answer = carry(method, input);
      if (silent === 'after') throw gone();
      return answer;
    },
  } as ApiClient;
  return {
    api,
    calls,
    opened,
    document: () => document,
    elsewhere: take,
    fallSilent: (when: typeof silent) => {
      silent = when;
    },
  };
};

/** A session whose next attempt comes when the test says so. */
const sessionOn = (store: ReturnType<typeof archive>) => {
  let again: (() => void) | null = null;
  const session = openSession(store.api, store.opened() as never, (act) => {
    again = act;
  });
  return {
    session,
    async askAgain() {
      again?.();
      await session.settled();
    },
  };
};

describe('an open project', () => {
  it('keeps what a silent host did not take, says so, and saves it in its order once the host answers', async () => {
    const store = archive();
    const { session, askAgain } = sessionOn(store);
    session.dispatch(addSheet);
    await session.settled();
    expect(session.state()).toMatchObject({ keeping: 'saved', unsaved: 0 });

    store.fallSilent('before');
    session.dispatch(addRun(1));
    await session.settled();
    session.dispatch(deepen(1, 700));
    await session.settled();
    expect(session.state()).toMatchObject({
      keeping: 'failed',
      unsaved: 2,
      trouble: { code: 'host-unreachable', message: expect.stringContaining('2 steps are not saved yet') },
    });
    expect(session.state().document.runs['run-1' as RunId]?.depthMm).toBe(700);

    await askAgain();
    expect(session.state().keeping).toBe('failed');
    store.fallSilent(null);
    await askAgain();
    expect(session.state()).toMatchObject({ keeping: 'saved', unsaved: 0, trouble: null });
    expect(store.document()).toEqual(session.state().document);
    expect(store.document().runs['run-1' as RunId]?.depthMm).toBe(700);
  });

  it('does not do a step twice whose answer was lost on the way', async () => {
    const store = archive();
    const { session, askAgain } = sessionOn(store);
    store.fallSilent('after');
    session.dispatch(addSheet);
    await session.settled();
    expect(session.state()).toMatchObject({ keeping: 'failed', unsaved: 1 });
    store.fallSilent(null);
    await askAgain();
    expect(session.state()).toMatchObject({ keeping: 'saved', unsaved: 0, trouble: null });
    expect(store.document().sheetIds).toEqual([sheetId]);
  });

  it('puts what is unsaved on top of a change made in another window, and says so', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    session.dispatch(addSheet);
    await session.settled();
    store.elsewhere(addRun(1));
    session.dispatch(addRun(2));
    await session.settled();
    expect(store.document().runIds).toEqual(['run-1', 'run-2']);
    expect(session.state().document).toEqual(store.document());
    expect(session.state()).toMatchObject({
      keeping: 'saved',
      trouble: { code: 'revision-conflict', message: expect.stringContaining('yours is kept') },
    });
  });

  it('asks which of two changes of the same run stays, shows both, and sends nothing meanwhile', async () => {
    for (const side of ['mine', 'theirs'] as const) {
      const store = archive();
      const { session } = sessionOn(store);
      for (const command of [addSheet, addRun(1), addRun(2)]) session.dispatch(command);
      await session.settled();
      store.elsewhere(deepen(1, 800));
      session.dispatch(deepen(1, 650));
      session.dispatch(deepen(2, 500));
      await session.settled();
      const depths = () =>
        [1, 2].map((number) => session.state().document.runs[`run-${number}` as RunId]?.depthMm);
      const kept = () => [1, 2].map((number) => store.document().runs[`run-${number}` as RunId]?.depthMm);
      const usual = runDefaultsOf(demoRange).depthMm;
      expect(session.state()).toMatchObject({
        keeping: 'failed',
        unsaved: 2,
        clash: { parts: [{ words: '“Run 1”', runId: 'run-1' }], showing: 'mine' },
      });
      expect([depths(), kept()]).toEqual([
        [650, 500],
        [800, usual],
      ]);
      session.lookAt('theirs');
      expect(depths()).toEqual([800, usual]);
      expect(session.dispatch(deepen(1, 900))).toContain('Choose first');
      session.sendAgain();
      session.undo();
      await session.settled();
      expect(kept()).toEqual([800, usual]);
      session.settleClash(side);
      await session.settled();
      // What does not clash is kept either way.
      const due = [side === 'mine' ? 650 : 800, 500];
      expect([depths(), kept()]).toEqual([due, due]);
      expect(session.state()).toMatchObject({ keeping: 'saved', unsaved: 0, clash: null });
    }
  });

  it('asks nothing where both windows made the same of it', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    for (const command of [addSheet, addRun(1)]) session.dispatch(command);
    await session.settled();
    store.elsewhere(deepen(1, 800));
    store.elsewhere(deepen(1, 650));
    session.dispatch(deepen(1, 650));
    await session.settled();
    expect(session.state()).toMatchObject({ keeping: 'saved', unsaved: 0, clash: null });
  });

  it('gives a run the next number where another window has taken its own, and says so', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    session.dispatch(addSheet);
    await session.settled();
    const theirs = addRun(7);
    if (theirs.type !== 'add-run') throw new Error('no run');
    store.elsewhere({ ...theirs, run: { ...theirs.run, name: 'Run 1' } });
    session.dispatch(addRun(1));
    await session.settled();
    expect(Object.values(store.document().runs).map(({ name }) => name)).toEqual(['Run 1', 'Run 2']);
    expect(session.state().trouble?.message).toContain('yours is “Run 2” now');
  });

  it('takes a step back that no longer goes with a change made in another window, and says so', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    session.dispatch(addSheet);
    session.dispatch(addRun(1));
    await session.settled();
    store.elsewhere({ type: 'remove-run', runId: 'run-1' as RunId });
    session.dispatch(deepen(1, 700));
    await session.settled();
    expect(session.state().document).toEqual(store.document());
    expect(session.state().trouble?.message).toContain('was taken back');
  });

  it('shows nothing that the archive would not take, and says why', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    session.dispatch(addSheet);
    session.dispatch(addRun(1));
    await session.settled();
    const before = session.state();
    const far: Command = {
      type: 'move-vertex',
      runId: 'run-1' as RunId,
      vertexId: 'vertex-1x300' as VertexId,
      to: paperPoint(Number.POSITIVE_INFINITY, 0),
    };
    expect(session.dispatch(far)).toMatch(/beyond what a project can hold.*Nothing was changed/);
    expect(session.dispatch(deepen(1, 6000))).toMatch(/depthMm/);
    expect(session.state()).toBe(before);
  });

  it('never carries an undo over to what another window did', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    session.dispatch(addSheet);
    await session.settled();
    store.elsewhere(addRun(1));
    session.undo();
    await session.settled();
    expect(store.document().runIds).toEqual(['run-1']);
    expect(session.state()).toMatchObject({ unsaved: 0, trouble: { code: 'revision-conflict' } });
  });

  it('shows what more than a step of its own changed, and goes on from there', async () => {
    const store = archive();
    const { session } = sessionOn(store);
    session.dispatch(addSheet);
    await session.settled();
    store.elsewhere(addRun(1));
    await session.refresh();
    expect(session.state().document.runIds).toEqual(['run-1']);
    session.dispatch(deepen(1, 700));
    await session.settled();
    expect(session.state()).toMatchObject({ keeping: 'saved', unsaved: 0, trouble: null });
    expect(store.document().runs['run-1' as RunId]?.depthMm).toBe(700);
  });
});
