import { describe, expect, it } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import type { ApiAnswer, ApiInput, ApiMethod, ApiOutput } from '../../src/app/apiMethods.ts';
import { createApi } from '../../src/app/createApi.ts';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
import { appVersion } from '../../src/app/handlers.ts';
import { PlanError, type PlanReader, type Ports, StoreError } from '../../src/app/ports.ts';
import { utf8 } from '../../src/app/utf8.ts';
import { createMemoryStore } from './memoryStore.ts';

const page = { page: 1, widthMm: 841, heightMm: 594, sizeName: 'A1', rotation: 0, userUnit: 1 };

const apiForTest = (changes: Partial<Ports> = {}) => {
  const reads: number[] = [];
  const plans: PlanReader = {
    version: '1',
    pages: async () => [page],
    register: async () => ({ isRegistered: false, reasons: [] }),
    readPage: async (_bytes, number) => {
      reads.push(number);
      return { answer: { page: number } as never, linework: Uint8Array.of(1, 2, 3), text: 'Bar' };
    },
  };
  let serial = 0;
  const ports: Ports = {
    store: createMemoryStore(),
    plans,
    now: () => `2027-01-0${1 + (serial % 9)}T10:00:00.000Z`,
    freshId: () => {
      serial += 1;
      return `t${String(serial).padStart(6, '0')}`;
    },
    sha256: async (bytes) => bytes.length.toString(16).padStart(64, '0'),
    font: async () => new Uint8Array(),
    ...changes,
  };
  const api = createApi(ports);
  const call = async <Method extends ApiMethod>(method: Method, input: ApiInput<Method>) =>
    (await api.call(method, input)) as ApiAnswer<ApiOutput<Method>>;
  const done = async <Method extends ApiMethod>(method: Method, input: ApiInput<Method>) => {
    const answer = await call(method, input);
    if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
    return answer.value;
  };
  return { api, call, done, reads, ports };
};

describe('the API', () => {
  it('answers an unknown method, a bad input and a cancelled call with their codes, and never throws', async () => {
    const { api } = apiForTest();
    expect(await api.call('format-disk', {})).toMatchObject({ ok: false, error: { code: 'unknown-method' } });
    expect(await api.call('constructor', {})).toMatchObject({ ok: false, error: { code: 'unknown-method' } });
    expect(await api.call('open-project', { projectId: '../../etc' })).toMatchObject({
      ok: false,
      error: { code: 'bad-input', path: 'projectId' },
    });
    expect(await api.call('undo', { projectId: 'project-1', revision: -1 })).toMatchObject({
      ok: false,
      error: { code: 'bad-input', path: 'revision' },
    });
    expect(await api.call('create-project', { name: 'Quay Street Tap', extra: 1 })).toMatchObject({
      ok: false,
    });
    const cancelled = {
      aborted: true,
      addEventListener: () => undefined,
      removeEventListener: () => undefined,
    };
    expect(await api.call('list-projects', {}, { signal: cancelled })).toMatchObject({
      ok: false,
      error: { code: 'cancelled' },
    });
  });

  it('keeps what the store and the plan reader say of their own failures, and owns up to a defect', async () => {
    const store = createMemoryStore();
    const { call } = apiForTest({
      store: {
        ...store,
        listProjects: async () => Promise.reject(new StoreError('archive-damaged', 'Restore a backup.')),
        loadProject: async () => Promise.reject(new TypeError('x is undefined')),
      },
      plans: {
        version: '1',
        pages: async () => Promise.reject(new PlanError('password-needed', 'This plan has a password.')),
        register: async () => ({ isRegistered: false, reasons: [] }),
        readPage: async () => Promise.reject(new Error('unreachable')),
      },
    });
    expect(await call('list-projects', {})).toMatchObject({ error: { code: 'archive-damaged' } });
    expect(await call('take-in-plan', { fileName: 'a.pdf', bytes: new Uint8Array(4) })).toMatchObject({
      error: { code: 'password-needed' },
    });
    expect(await call('open-project', { projectId: 'project-1' as never })).toMatchObject({
      error: { code: 'defect' },
    });
  });

  it('accepts a command only at the revision that it was drawn up for', async () => {
    const { done, call } = apiForTest();
    const { projectId, revision } = await done('create-project', { name: 'Quay Street Tap' });
    const rename = (name: string) => ({ type: 'change-job' as const, changes: { name } });
    const first = await done('apply-command', { projectId, revision, command: rename('Quay Street') });
    expect(await call('apply-command', { projectId, revision, command: rename('Other') })).toMatchObject({
      error: { code: 'revision-conflict', path: 'revision' },
    });
    const again = await done('open-project', { projectId });
    expect(again).toMatchObject({ revision: first.revision, document: { job: { name: 'Quay Street' } } });
  });

  it('says why a command is refused, and where', async () => {
    const { done, call } = apiForTest();
    const { projectId, revision } = await done('create-project', { name: 'Quay Street Tap' });
    const command = {
      type: 'together' as const,
      label: 'Two at once',
      commands: [
        { type: 'change-job' as const, changes: { client: 'Salt Lane' } },
        { type: 'remove-run' as const, runId: 'run-1' as never },
      ],
    };
    expect(await call('apply-command', { projectId, revision, command })).toMatchObject({
      error: { code: 'run-missing', path: 'command.commands.1.runId' },
    });
    expect((await done('open-project', { projectId })).document.job.client).toBe('');
  });

  it('undoes and redoes across a restart', async () => {
    const { done, ports, call } = apiForTest();
    const { projectId, revision } = await done('create-project', { name: 'One' });
    const two = await done('apply-command', {
      projectId,
      revision,
      command: { type: 'change-job', changes: { name: 'Two' } },
    });
    const restarted = createApi(ports);
    const undone = await restarted.call('undo', { projectId, revision: two.revision });
    expect(undone).toMatchObject({ ok: true, value: { undoLabel: null } });
    expect((await done('open-project', { projectId })).document.job.name).toBe('One');
    const reopened = await done('open-project', { projectId });
    await done('redo', { projectId, revision: reopened.revision });
    expect((await done('open-project', { projectId })).document.job.name).toBe('Two');
    const last = await done('open-project', { projectId });
    expect(await call('redo', { projectId, revision: last.revision })).toMatchObject({
      error: { code: 'nothing-to-redo' },
    });
  });

  it('keeps a plan’s bytes untouched and reads each page once', async () => {
    const { done, reads } = apiForTest();
    const bytes = await drawDemoPlan();
    const { sha256, pages } = await done('take-in-plan', { fileName: 'ground floor.pdf', bytes });
    expect(pages).toEqual([page]);
    const kept = await done('plan-bytes', { sha256 });
    expect(kept.fileName).toBe('ground floor.pdf');
    expect(kept.bytes).toEqual(bytes);
    await done('read-sheet', { sha256, page: 1 });
    await done('read-sheet', { sha256, page: 1 });
    expect((await done('sheet-linework', { sha256, page: 1 })).bytes).toEqual(Uint8Array.of(1, 2, 3));
    expect(reads).toEqual([1]);
    await done('read-sheet', { sha256, page: 1, layers: { '12R': false } });
    expect(reads).toEqual([1, 1]);
  });

  it('hands the contracts on, with the place of what is wrong inside them', async () => {
    const { call } = apiForTest();
    expect(await call('fit', { problem: { depthMm: -1 } })).toMatchObject({ ok: false });
    const answer = await call('fit', { problem: { depthMm: -1 } });
    expect(!answer.ok && answer.error.path).toMatch(/^problem/);
    expect(await call('access', { wayIn: {} })).toMatchObject({ ok: false });
  });

  it('calls itself by the version of its package', () => {
    expect(appVersion).toBe(packageJson.version);
  });
});

describe('UTF-8', () => {
  it('is what the platform’s own encoder makes', () => {
    const text = 'A1 ± 12 mm, 3 × 1200 — Größe, Żółć, 酒吧, 🍺';
    expect(utf8(text)).toEqual(new TextEncoder().encode(text));
  });
});
