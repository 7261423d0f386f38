import { randomBytes } from 'node:crypto';
import { createApi } from '../../src/app/createApi.ts';
import { type Ports, StoreError } from '../../src/app/ports.ts';
import { projectFactsOf } from '../../src/app/search/projectFacts.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { apiForTest, portsForTest } from '../app/portsForTest.ts';
import { archivedProjects } from './archivedProjects.ts';
import { fixedNow, projectIdOf, seededBytes, seededNumbers, sha256Of } from './editedSteps.ts';
import { issuedBytesOf, issueLabel, operatedProject } from './operatedProject.ts';

/**
 * A process to be killed: issues, revises a sheet, takes project files in, purges, and backs up all the while. It prints
 * a line for each thing before (`importing`, `purging`) or after it was accepted (`issue N`, `revised SHEET`,
 * `imported PROJECT REVISION SHA256`, `made PROJECT MARKER`, `purged PROJECT`). Arguments: folder, seed, and `shared`
 * where others work in the archive: then what they were quicker at is passed over.
 */
const [folder = '', seedText = '0', shared] = process.argv.slice(2);
const next = seededNumbers(Number(seedText));
const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};
say('start');
const archive = await openArchive({ folder, now: fixedNow });
const { store } = archive;
say('open');

const plan = operatedProject.plan;
const planSha256 = sha256Of(plan);
const ports: Ports = portsForTest({
  store,
  freshId: () => randomBytes(8).toString('hex'),
  plans: {
    version: 'test',
    pages: async () => [{ page: 1, widthMm: 420, heightMm: 297, sizeName: 'A3', rotation: 0, userUnit: 1 }],
    readPage: async () => ({
      answer: { sheet: { userUnit: 1 } } as never,
      linework: new Uint8Array(),
      text: 'bar',
    }),
    register: async () => ({
      isRegistered: true,
      isSure: true,
      method: 'linework',
      transform: { a: 1, b: 0, x0: 2, y0: 3 },
      uncertainty: { centre: { x: 0, y: 0 }, covariance: new Array<number>(16).fill(0) },
      plusMinusPt: 0.1,
      worstPlusMinusPt: 0.1,
      reasons: ['By their linework.'],
      changes: { gone: [], added: [], moved: [] },
      tolerancePt: 0.6,
    }),
  },
});
const api = createApi(ports);
const done = async <Value>(method: string, input: unknown): Promise<Value> => {
  const answer = await api.call(method, input);
  if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
  return answer.value as Value;
};

const projectId = projectIdOf(1);
const ownPlan = (document: ProjectDocument): ProjectDocument => ({
  ...document,
  sheets: Object.fromEntries(
    Object.entries(document.sheets).map(([id, sheet]) => [id, { ...sheet, planSha256 }]),
  ),
});
await store.putPlan({ sha256: planSha256, fileName: 'plan.pdf', bytes: plan, at: fixedNow() });
if (!(await store.loadProject(projectId))) {
  const document = ownPlan(archivedProjects(1, 5)[0]!.document);
  await store.createProject({ projectId, document, at: fixedNow(), facts: projectFactsOf(document) });
}

const load = async () => {
  const stored = (await store.loadProject(projectId))!;
  return { revision: stored.revision, document: stored.document as ProjectDocument };
};

const issue = async (): Promise<void> => {
  const { revision, document } = await load();
  const { nextNumber: number } = await store.listIssues(projectId);
  const applied = applyCommand(document, { type: 'change-job', changes: { site: `Site ${number}` } });
  if (!applied.ok) throw new Error(applied.refusal.message);
  const added = await store.addIssue({
    projectId,
    expectedRevision: revision,
    issue: {
      number,
      issuedAt: fixedNow(),
      issuedBy: 'Mara',
      purpose: 'tender',
      revision,
      program: 'Footrail',
      inputs: JSON.stringify({ number, document }),
      files: [1, 2, 3].map((file) => ({
        document: `file ${file}`,
        fileName: `file-${file}.pdf`,
        mediaType: 'application/pdf',
        bytes: issuedBytesOf(number, file),
      })),
    },
    change: {
      event: { kind: 'command', label: issueLabel(number), patch: applied.patch, at: fixedNow() },
      document: applied.document,
      facts: projectFactsOf(applied.document),
    },
  });
  if (!added.ok && shared) return say('refused');
  if (!added.ok) throw new Error(`Issue ${number} was refused.`);
  say(`issue ${number}`);
};

const revise = async (): Promise<void> => {
  const { document } = await load();
  const followed = new Set(Object.values(document.sheets).map(({ revisionOf }) => revisionOf?.supersedes));
  const last = document.sheetIds.filter((id) => !followed.has(id)).at(-1);
  if (last === undefined || document.sheetIds.length > 12) return;
  const { sheetId } = await done<{ sheetId: string }>('revise-sheet', {
    projectId,
    sheetId: last,
    sha256: planSha256,
    page: 1,
    name: String(document.sheetIds.length),
    follow: true,
  });
  say(`revised ${sheetId}`);
};

const reviseUnlessLate = async (): Promise<void> => {
  try {
    await revise();
  } catch (error) {
    if (!shared || !/^(revision-conflict|sheet-superseded):/.test((error as Error).message)) throw error;
    say('refused');
  }
};

/** Takes a project file in, then one that goes on, then one that parted from it. */
const takeIn = async (): Promise<void> => {
  const office = apiForTest({ freshId: () => randomBytes(8).toString('hex') });
  const bytes = seededBytes(60_000, Math.floor(next() * 1e9));
  const { projectId: id } = await office.done('take-in-enquiry', { fileName: 'Bar.pdf', bytes });
  const change = async (site: string): Promise<Uint8Array> => {
    const { revision } = await office.done('open-project', { projectId: id });
    await office.done('apply-command', {
      projectId: id,
      revision,
      command: { type: 'change-job', changes: { site } },
    });
    return (await office.done('export-project', { projectId: id })).bytes;
  };
  const first = await change('first');
  const goesOn = await change('second');
  const { revision } = await office.done('open-project', { projectId: id });
  await office.done('undo', { projectId: id, revision });
  const parted = await change('third');
  for (const [file, choice] of [
    [first, 'refuse'],
    [goesOn, 'refuse'],
    [parted, next() < 0.5 ? 'theirs' : 'copy'],
  ] as const) {
    say(`importing ${id}`);
    const taken = await done<{ projectId: ProjectId }>('import-project', { bytes: file, choice });
    const stored = (await store.loadProject(taken.projectId))!;
    const digest = sha256Of(Buffer.from(JSON.stringify(stored.document)));
    say(`imported ${taken.projectId} ${stored.revision} ${digest}`);
  }
};

const purge = async (): Promise<void> => {
  const marker = `client-${randomBytes(9).toString('hex')}`;
  const id = `project-${randomBytes(8).toString('hex')}` as ProjectId;
  const bytes = Buffer.concat([Buffer.from(marker), seededBytes(30_000, 7), Buffer.from(marker)]);
  const sha256 = sha256Of(bytes);
  const { document } = archivedProjects(1, 9)[0]!;
  const named: ProjectDocument = {
    ...document,
    job: { ...document.job, client: marker, name: marker },
    sheets: Object.fromEntries(
      Object.entries(document.sheets).map(([sheet, one]) => [
        sheet,
        { ...one, planSha256: sha256, planFileName: `${marker}.pdf` },
      ]),
    ),
  };
  await store.createProject({
    projectId: id,
    document: named,
    at: fixedNow(),
    facts: projectFactsOf(named),
    needs: { plans: [{ sha256, fileName: `${marker}.pdf`, bytes }], ranges: [], at: fixedNow() },
  });
  say(`made ${id} ${marker}`);
  if (next() < 0.5) await archive.backUp();
  say(`purging ${id}`);
  const report = await store.purgeProject({ projectId: id, at: fixedNow(), withCopies: true });
  if (report?.isErased && report.advice === '' && report.copiesLeft.length === 0) say(`purged ${id}`);
};

const backUpForEver = async (): Promise<void> => {
  for (;;) {
    try {
      await archive.backUp();
    } catch (error) {
      if (!shared || !(error instanceof StoreError)) throw error;
      say(`not backed up: ${error.code}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 40));
  }
};
void backUpForEver();

for (;;) {
  const turn = next();
  if (turn < 0.45) await issue();
  else if (turn < 0.6) await reviseUnlessLate();
  else if (turn < 0.8) await takeIn();
  else await purge();
  await new Promise(setImmediate);
}
