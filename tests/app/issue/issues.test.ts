import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ApiInput, ApiMethod, ApiOutput } from '../../../src/app/apiMethods.ts';
import { createApi } from '../../../src/app/createApi.ts';
import type { Ports } from '../../../src/app/ports.ts';
import type { Archive } from '../../../src/archive/openArchive.ts';
import { createNodePorts } from '../../../src/host/nodePorts.ts';

const folder = mkdtempSync(join(tmpdir(), 'footrail-issues-'));
let archive: Archive;
let ports: Ports;
let day = '2027-03-15T09:00:00.000Z';
let api: ReturnType<typeof createApi>;

/** Opens the archive anew, as another start of the program does. */
const start = async (): Promise<void> => {
  const opened = await createNodePorts({ archiveDir: folder });
  archive = opened.archive;
  ports = { ...opened.ports, now: () => day, who: () => 'mara' };
  api = createApi(ports);
};

beforeAll(start);
afterAll(() => {
  archive.close();
  rmSync(folder, { recursive: true, force: true });
});

const done = async <Method extends ApiMethod>(
  method: Method,
  input: ApiInput<Method>,
): Promise<ApiOutput<Method>> => {
  const answer = await api.call(method, input);
  if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
  return answer.value as ApiOutput<Method>;
};

const preview = async (wanted: ApiInput<'begin-issue'>) => {
  const draft = await done('begin-issue', wanted);
  for (const document of draft.documents)
    await done('draw-issue-document', { draftId: draft.draftId, document });
  return draft;
};

const sumsOf = (files: readonly { readonly fileName: string; readonly sha256: string }[]) =>
  Object.fromEntries(files.map(({ fileName, sha256 }) => [fileName, sha256]));

describe('issuing the demo project', { timeout: 120_000 }, () => {
  it('keeps the very bytes of the preview, draws them again the same, and lists what changed on the next', async () => {
    const { projectId, document } = await done('open-demo', {});
    expect(document.job.state).not.toBe('issued');
    const prospect = await done('issue-prospect', { projectId });
    expect(prospect).toMatchObject({ number: 1, letter: 'A', missing: null, since: null, changes: [] });

    // Twice from the same moment: byte for byte the same, whatever else the program did in between.
    const draft = await preview({ projectId, purpose: 'tender', by: 'Mara Okafor' });
    const { files } = await done('list-draft-files', { draftId: draft.draftId });
    const other = await preview({ projectId, purpose: 'tender', by: 'Mara Okafor' });
    expect(sumsOf((await done('list-draft-files', { draftId: other.draftId })).files)).toEqual(sumsOf(files));
    const kinds = new Set(files.map((one) => one.document.split(' ')[0]));
    for (const kind of new Set(prospect.documents.map(({ key }) => key.split(' ')[0])))
      expect(kinds).toContain(kind);
    expect(files.map(({ fileName }) => fileName)).toEqual(
      expect.arrayContaining(['manifest.json', 'SHA256SUMS']),
    );

    const issued = await done('issue', { draftId: draft.draftId });
    expect(issued.issue).toMatchObject({
      number: 1,
      purpose: 'tender',
      issuedBy: 'Mara Okafor',
      issuedAt: day,
    });
    expect(issued.issue.files).toEqual(files);
    const opened = await done('open-project', { projectId });
    expect(opened.document.job.state).toBe('issued');
    expect(opened.revision).toBe(issued.revision);
    const { changes } = await done('project-history', { projectId });
    expect(changes.at(-1)).toMatchObject({ label: expect.stringContaining('Issue 1'), by: 'mara' });
    // The preview is spent: it can't be issued twice.
    await expect(done('issue', { draftId: draft.draftId })).rejects.toThrow('preview-gone');
    await expect(done('issue', { draftId: other.draftId })).rejects.toThrow('preview-outdated');

    // Another start of the program, another day.
    archive.close();
    day = '2027-05-02T16:30:00.000Z';
    await start();
    const [first] = (await done('list-issued', { projectId })).issues;
    expect(first).toEqual(issued.issue);
    for (const { fileName, sha256 } of files) {
      const { bytes } = await done('issued-file', { projectId, number: 1, fileName });
      expect(await ports.sha256(bytes)).toBe(sha256);
    }
    const again = await done('draw-issue-again', { projectId, number: 1 });
    expect(again.isSameProgram).toBe(true);
    expect(again.files.filter(({ isSame }) => !isSame)).toEqual([]);
    expect(again.files).toHaveLength(files.length);

    const zip = await done('issued-zip', { projectId, number: 1 });
    const inside = unzipSync(zip.bytes);
    expect(Object.keys(inside).map((path) => path.split('/')[1])).toEqual(
      files.map(({ fileName }) => fileName),
    );
    expect((await done('issued-zip', { projectId, number: 1 })).bytes).toEqual(zip.bytes);

    // The run's depth changes; the next issue says so, in the workbook's table too.
    const run = opened.document.runs[opened.document.runIds[0]!]!;
    const changed = await done('apply-command', {
      projectId,
      revision: issued.revision,
      command: { type: 'change-run', runId: run.id, changes: { name: 'Long bar' } },
    });
    expect((await done('issue-prospect', { projectId })).changes).toContainEqual({
      where: 'Long bar',
      what: 'Run has another name',
      was: run.name,
      is: 'Long bar',
    });
    const second = await preview({ projectId, purpose: 'construction' });
    const issue2 = (await done('issue', { draftId: second.draftId })).issue;
    expect(issue2).toMatchObject({ number: 2, revision: changed.revision });
    const table = issue2.files.find(({ fileName }) => fileName.endsWith('changes.csv'))!;
    const { bytes } = await done('issued-file', { projectId, number: 2, fileName: table.fileName });
    const words = new TextDecoder().decode(bytes);
    expect(words).toContain(`Long bar,Run has another name,${run.name},Long bar`);
    expect(
      (await done('draw-issue-again', { projectId, number: 2 })).files.every(({ isSame }) => isSame),
    ).toBe(true);
    // Issued before: the state stays, and nothing is put into the history for it.
    expect((await done('project-history', { projectId })).changes).toHaveLength(changed.revision);
    expect((await done('compare-issues', { projectId, from: 1, to: 2 })).changes).toHaveLength(1);
    expect((await done('compare-issues', { projectId, from: 2 })).changes).toEqual([]);
    expect((await archive.check()).problems).toEqual([]);
  });

  it('draws the same on US paper, and says when another program would draw otherwise', async () => {
    const { projectId } = await done('open-demo', {});
    const { draftId, number } = await preview({ projectId, paper: 'us', by: 'Mara' });
    const { issue } = await done('issue', { draftId });
    expect((await done('draw-issue-again', { projectId, number })).files.every(({ isSame }) => isSame)).toBe(
      true,
    );
    // A later program: another reader of plans, and another font in the drawings.
    const bold = createRequire(import.meta.url).resolve('pdfjs-dist/standard_fonts/LiberationSans-Bold.ttf');
    const later = createApi({
      ...ports,
      plans: { ...ports.plans, version: 'later' },
      font: async () => readFileSync(bold),
    });
    const answer = await later.call('draw-issue-again', { projectId, number });
    const again = (answer as { value: ApiOutput<'draw-issue-again'> }).value;
    expect(again.isSameProgram).toBe(false);
    const others = again.files.filter(({ isSame }) => !isSame).map(({ fileName }) => fileName);
    expect(others.some((name) => name.endsWith('setting-out.pdf'))).toBe(true);
    expect(others.some((name) => name.endsWith('schedule.csv'))).toBe(false);
    for (const { fileName, sha256 } of issue.files)
      expect(await ports.sha256((await done('issued-file', { projectId, number, fileName })).bytes)).toBe(
        sha256,
      );
  });

  it('says what is missing, and refuses what can’t be issued', async () => {
    const { projectId } = await done('create-project', { name: 'Empty' });
    const prospect = await done('issue-prospect', { projectId });
    expect(prospect.missing).toMatchObject({ step: 'plan' });
    await expect(done('begin-issue', { projectId })).rejects.toThrow('nothing-to-take-away');
    const demo = await done('open-demo', {});
    await expect(done('begin-issue', { projectId: demo.projectId, documents: ['x'] })).rejects.toThrow(
      'no-such-document',
    );
    const draft = await done('begin-issue', { projectId: demo.projectId, documents: ['schedule'] });
    await expect(done('issue', { draftId: draft.draftId })).rejects.toThrow('preview-incomplete');
    await done('draw-issue-document', { draftId: draft.draftId, document: 'schedule' });
    const before = day;
    day = '2027-05-03T00:00:01.000Z';
    await expect(done('issue', { draftId: draft.draftId })).rejects.toThrow('preview-of-another-day');
    day = before;
    const { issues } = await done('list-issued', { projectId: demo.projectId });
    expect(issues.every(({ files }) => files.length > 4)).toBe(true);
    await expect(done('issued-zip', { projectId: demo.projectId, number: 99 })).rejects.toThrow(
      'issue-missing',
    );
  });
});
