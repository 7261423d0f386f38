import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { projectBundlesOver } from '../../src/app/bundle/projectBundles.ts';
import { projectFactsOf } from '../../src/app/search/projectFacts.ts';
import { inspectBackup } from '../../src/archive/backupFiles.ts';
import { type Archive, archivePathOf } from '../../src/archive/openArchive.ts';
import { tablesAtPurge } from '../../src/archive/purgeProject.ts';
import { restoreArchive } from '../../src/archive/restoreArchive.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { portsForTest } from '../app/portsForTest.ts';
import { archivedProjects, fillWith } from './archivedProjects.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { fixedNow } from './editedSteps.ts';

const at = '2030-01-02T03:04:05.000Z';
/** Nothing else that the tests write has these words. */
const personal = {
  client: 'Zephyrine Quillbrook',
  clientFolded: 'zephyrine',
  contact: 'Ottoline Vantwhistle',
  site: '7 Xanderstrand Quay',
  name: 'Wobbegong Tap Room',
  number: 'QX-91827',
  question: 'May Mr Huckaback hang the mirrors lower?',
  who: 'perpetua.login',
  file: 'Zephyrine Quillbrook GA.pdf',
  onPlan: 'KETTERIDGE SOFFIT',
  renamed: 'Grizzlewick Alley',
} as const;
/** Half of each is sought too, so that a string cut by the edge of a page is not passed over. */
const needles = Object.values(personal).flatMap((text) => [text, text.slice(0, 9), text.slice(-9)]);

/** Every file of the archive folder, and where in it something personal stands. */
const traces = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).flatMap((name) => {
    const path = join(folder, name);
    if (!statSync(path).isFile()) return [];
    const bytes = readFileSync(path);
    return needles.flatMap((needle) =>
      (['utf8', 'utf16le'] as const).flatMap((encoding) =>
        bytes.includes(Buffer.from(needle, encoding)) ||
        bytes.includes(Buffer.from(needle.toLowerCase(), encoding))
          ? [`${name}: ${needle}`]
          : [],
      ),
    );
  });

const plan = Buffer.from(`%PDF-1.7 ${personal.onPlan} ${'ink '.repeat(5000)}`);
const issued = Buffer.from(`%PDF-1.7 drawn for ${personal.client}`);
const planSha256 = createHash('sha256').update(plan).digest('hex');

/** Makes the client's project as the office does over months, among others, and answers how it is at the end. */
const fillArchive = async ({ store }: Archive, isPlanShared: boolean) => {
  const others = archivedProjects(25, 11).map((one, index) =>
    isPlanShared && index === 3 ? { ...one, document: withPlan(one.document, 'Market Hill GA.pdf') } : one,
  );
  await fillWith(store, others.slice(0, 12));
  const base = archivedProjects(26, 11)[25]!;
  const projectId = 'project-ofclient' as ProjectId;
  let document = withPlan(base.document, personal.file);
  await store.putPlan({ sha256: planSha256, fileName: personal.file, bytes: plan, at });
  await store.putPlanWords({ sha256: planSha256, page: 1, words: ['ketteridge', 'soffit'] });
  await store.putReading({ sha256: planSha256, page: 1, part: 'text', readerVersion: '1' }, personal.onPlan);
  await store.createProject({ projectId, document, at: base.at, facts: projectFactsOf(document) });
  const commands: readonly Command[] = [
    { type: 'change-job', changes: { name: personal.name, number: personal.number } },
    { type: 'change-job', changes: { site: personal.renamed } },
    {
      type: 'change-job',
      changes: { client: personal.client, site: personal.site, retainUntil: '2029-12-31' },
    },
    {
      type: 'change-job',
      changes: {
        questions: [
          { question: personal.question, askedOn: '', answer: `Ask ${personal.contact}`, answeredOn: '' },
        ],
      },
    },
  ];
  let revision = 0;
  for (let round = 0; round < 12; round += 1)
    for (const command of commands) {
      const applied = applyCommand(document, command);
      if (!applied.ok) throw new Error(applied.refusal.message);
      document = applied.document;
      const event = {
        kind: 'command',
        label: applied.label,
        patch: applied.patch,
        at: base.at,
        by: personal.who,
      } as const;
      const kept = await store.appendEvent({
        projectId,
        expectedRevision: revision,
        event,
        document,
        facts: projectFactsOf(document),
      });
      if (!kept.ok) throw new Error('conflict');
      revision = kept.revision;
    }
  const issue = {
    number: 1,
    issuedAt: at,
    issuedBy: personal.who,
    purpose: `For ${personal.contact}`,
    revision,
    program: 'Footrail',
    inputs: JSON.stringify({ number: 1, client: personal.client }),
    files: [
      { document: 'plan', fileName: personal.file, mediaType: 'application/pdf', bytes: issued },
      {
        document: 'schedule',
        fileName: 'schedule.csv',
        mediaType: 'text/csv',
        bytes: Buffer.from(personal.site),
      },
    ],
  };
  await store.addIssue({ projectId, expectedRevision: revision, issue });
  await store.saveSearch({ name: `All of ${personal.client}`, search: { client: personal.client } }, at);
  await store.saveSearch({ name: 'Lost ones', search: { states: ['lost'] } }, at);
  await fillWith(store, others.slice(12));
  return { projectId, document, revision, base, others };
};

const withPlan = (document: ProjectDocument, planFileName: string): ProjectDocument => ({
  ...document,
  sheets: Object.fromEntries(
    Object.entries(document.sheets).map(([id, sheet]) => [id, { ...sheet, planSha256, planFileName }]),
  ),
});

describe('a purge', () => {
  it('names every table of the archive', async () => {
    const folder = temporaryFolder();
    await openForTest(folder);
    const database = new Database(archivePathOf(folder), { readonly: true });
    const tables = database
      .prepare<[], { name: string }>(
        `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'project_search_%' AND name NOT LIKE 'sqlite_%'`,
      )
      .all();
    database.close();
    expect(tables.map(({ name }) => name).sort()).toEqual(Object.keys(tablesAtPurge).sort());
  });

  it('takes every trace of the client out of the archive’s files, and the counts stay', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const { projectId, document, revision, base, others } = await fillArchive(archive, false);
    expect(traces(folder).length).toBeGreaterThan(10);
    const preview = await archive.store.previewPurge(projectId);
    expect(preview).toMatchObject({
      project: { name: personal.name, client: personal.client },
      retainUntil: '2029-12-31',
      isRemoved: false,
      goes: {
        changes: revision,
        people: [personal.who],
        issues: 1,
        plans: [{ fileName: personal.file, isShared: false }],
        savedSearches: [`All of ${personal.client}`],
      },
      sameClient: 0,
      copies: [],
    });
    // Lengths straight from the drawn points: 1:50, 72 points to the inch.
    const lengths = document.runIds.map((runId) => {
      const points = document.runs[runId]!.frontLine.map(({ at: point }) => point);
      return points
        .slice(1)
        .reduce(
          (sum, point, index) =>
            sum +
            Math.round((Math.hypot(point.x - points[index]!.x, point.y - points[index]!.y) * 25.4 * 50) / 72),
          0,
        );
    });
    const report = await archive.store.purgeProject({ projectId, at, withCopies: false });
    expect(report).toMatchObject({ isErased: true, advice: '', copiesLeft: [] });
    expect(traces(folder)).toEqual([]);

    const counts = {
      changedIn: base.at.slice(0, 7),
      tenderIn: document.job.tenderDate.slice(0, 7),
      state: document.job.state,
      rangeId: document.stockRange.id,
      runLengthsMm: Object.values(document.sheets)[0]!.acceptedScale ? lengths : [],
    };
    expect(report?.counts).toMatchObject(counts);
    expect(await archive.store.purgedProjects()).toMatchObject([{ ...counts, purgedOn: '2030-01-02' }]);
    expect(await archive.store.previewPurge(projectId)).toBeNull();
    expect(await archive.store.loadProject(projectId)).toBeNull();
    expect(await archive.store.getPlan(planSha256)).toBeNull();
    expect(await archive.store.listSavedSearches()).toMatchObject([{ name: 'Lost ones' }]);
    expect(await archive.store.listProjects()).toHaveLength(others.length);
    expect((await archive.store.listIssues(projectId)).issues).toEqual([]);
    // Of what was issued, the number and the SHA-256 stay.
    const database = new Database(archivePathOf(folder), { readonly: true });
    expect(database.prepare('SELECT number, purged_at, reason FROM purged_issues').all()).toEqual([
      {
        number: 1,
        purged_at: at,
        reason: expect.stringContaining(`plan ${createHash('sha256').update(issued).digest('hex')}`),
      },
    ]);
    expect(database.prepare('SELECT count(*) AS parts FROM issue_parts').get()).toEqual({ parts: 0 });
    database.close();
    expect((await archive.check()).problems).toEqual([]);
    archive.close();
    expect(traces(folder)).toEqual([]);
    const again = await openForTest(folder);
    expect(again.health()).toMatchObject({ state: 'sound', notices: [] });
    await expect(again.store.createProject({ projectId, document, at })).rejects.toMatchObject({
      code: 'project-purged',
    });
  });

  it('leaves a plan that another project has, under the name that it has there', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const { projectId } = await fillArchive(archive, true);
    expect((await archive.store.previewPurge(projectId))?.goes.plans).toEqual([
      { fileName: personal.file, isShared: true },
    ]);
    await archive.store.purgeProject({ projectId, at, withCopies: false });
    const kept = await archive.store.getPlan(planSha256);
    expect(kept?.plan.fileName).toBe('Market Hill GA.pdf');
    expect(kept?.bytes).toEqual(new Uint8Array(plan));
    // The shared plan itself says what it says; nothing else does.
    expect(traces(folder).filter((trace) => !/ketterid|soffit/i.test(trace))).toEqual([]);
    expect((await archive.check()).problems).toEqual([]);
  });

  it('names the copies that still hold the project, and takes them away where that is wished', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    await archive.backUp();
    const { projectId } = await fillArchive(archive, false);
    const backup = (await archive.backUp())!;
    writeFileSync(join(folder, 'archive.sqlite-wal-cut-off-2029-01-01T000000Z'), personal.client);
    archive.close();
    restoreArchive({ folder, backupName: backup.name, now: fixedNow() });
    const restored = await openForTest(folder);
    const left = await restored.store.purgeProject({ projectId, at, withCopies: false });
    const setAside = readdirSync(folder).find((name) => name.startsWith('set-aside-'))!;
    expect(left?.copiesLeft.map(({ name, holds }) => [name, holds]).sort()).toEqual(
      [
        [`backups/${backup.name}`, 'project'],
        ['archive.sqlite-wal-cut-off-2029-01-01T000000Z', 'unread'],
        [`${setAside}/archive.sqlite`, 'unread'],
      ].sort(),
    );
    expect(traces(folder).every((trace) => !/^archive\.sqlite(-wal|-shm)?:/.test(trace))).toBe(true);
  });

  it('takes the copies that hold the project away after a fresh backup', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const empty = (await archive.backUp())!;
    const { projectId } = await fillArchive(archive, false);
    const full = (await archive.backUp())!;
    mkdirSync(join(folder, 'set-aside-x'));
    cpSync(full.path, join(folder, 'set-aside-x', 'archive.sqlite'));
    const report = await archive.store.purgeProject({ projectId, at, withCopies: true });
    expect(report?.copiesRemoved.slice().sort()).toEqual([
      `backups/${full.name}`,
      'set-aside-x/archive.sqlite',
    ]);
    expect(report?.copiesLeft).toEqual([]);
    expect(traces(folder)).toEqual([]);
    const names = archive.backups().map(({ name }) => name);
    expect(names).toContain(empty.name);
    expect(names).toHaveLength(2);
  });

  it('is not undone by what was under way: a page being read, a project file taken in', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const { store } = archive;
    const { projectId } = await fillArchive(archive, false);
    const bundles = projectBundlesOver(portsForTest({ store }), {
      madeWith: 'Footrail',
      listRanges: store.listStockRanges,
    });
    await store.putStockRange(demoRange, at);
    const { bytes } = await bundles.exportProject(projectId);
    await store.purgeProject({ projectId, at, withCopies: false });
    const key = { sha256: planSha256, page: 1, readerVersion: '1' };
    await store.putReading({ ...key, part: 'text' }, personal.onPlan);
    await store.putReading({ ...key, part: 'linework' }, Buffer.from(personal.onPlan));
    await store.putPlanWords({ ...key, words: ['ketteridge', 'soffit'] });
    await expect(bundles.importProject(bytes, 'refuse')).rejects.toMatchObject({ code: 'project-purged' });
    expect(traces(folder)).toEqual([]);
    expect(await store.getPlan(planSha256)).toBeNull();
  });

  it('of a project that was removed from the list takes it away too', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    const { projectId } = await fillArchive(archive, false);
    await archive.store.removeProject(projectId, at);
    expect(traces(folder).length).toBeGreaterThan(0);
    const due = await archive.store.projectsPastRetention('2030-01-01');
    expect(due.find(({ project }) => project.projectId === projectId)).toMatchObject({ isRemoved: true });
    expect(await archive.store.projectsPastRetention('2019-01-01')).toEqual([]);
    await archive.store.purgeProject({ projectId, at, withCopies: false });
    expect(traces(folder)).toEqual([]);
    expect((await archive.check()).problems).toEqual([]);
  });

  it('that another reader kept from erasing says so, and is finished at the next opening', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder, { lockWaitMs: 50 });
    const { projectId } = await fillArchive(archive, false);
    const full = (await archive.backUp())!;
    const reader = new Database(archivePathOf(folder), { readonly: true });
    reader.exec('BEGIN');
    reader.prepare('SELECT count(*) FROM projects').get();
    const report = await archive.store.purgeProject({ projectId, at, withCopies: true });
    expect(report).toMatchObject({ isErased: false, advice: expect.stringContaining('another window') });
    expect(traces(folder).length).toBeGreaterThan(0);
    reader.exec('COMMIT');
    reader.close();
    archive.close();
    const again = await openForTest(folder);
    expect(again.health().notices).toEqual([]);
    // The copies that were to go with it, too; and there is a good backup of what stays.
    expect(traces(folder)).toEqual([]);
    expect(again.backups().map(({ name }) => name)).not.toContain(full.name);
    expect(again.backups().map(({ path }) => inspectBackup(path))).toEqual([[]]);
  });

  it('takes plans along that came into no project, save what was taken in within a day', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder, { now: () => at });
    const { projectId } = await fillArchive(archive, true);
    const put = async (text: string, when: string) => {
      const bytes = Buffer.from(`%PDF-1.7 ${text}`);
      const sha256 = createHash('sha256').update(bytes).digest('hex');
      await archive.store.putPlan({ sha256, fileName: `${text}.pdf`, bytes, at: when });
      return sha256;
    };
    const forsaken = await put(`${personal.client}, revision B`, '2029-12-24T03:04:05.000Z');
    const onItsWay = await put('of another', '2030-01-02T01:00:00.000Z');
    expect((await archive.store.previewPurge(projectId))?.goes.plans.map(({ fileName }) => fileName)).toEqual(
      [personal.file, `${personal.client}, revision B.pdf`],
    );
    await archive.store.purgeProject({ projectId, at, withCopies: false });
    expect(await archive.store.getPlan(forsaken)).toBeNull();
    expect(await archive.store.getPlan(onItsWay)).not.toBeNull();
    expect(await archive.store.getPlan(planSha256)).not.toBeNull();
    expect(traces(folder).filter((trace) => !/ketterid|soffit/i.test(trace))).toEqual([]);
    expect((await archive.check()).problems).toEqual([]);
  });

  it('takes no file away but the copies of the archive, whatever its notes say', async () => {
    const folder = temporaryFolder();
    const archive = await openForTest(folder);
    await fillArchive(archive, false);
    archive.close();
    writeFileSync(join(folder, 'notes.txt'), 'of someone else');
    const plain = new Database(archivePathOf(folder));
    const names = ['notes.txt', '../notes.txt', 'backups/../notes.txt', 'archive.sqlite'];
    plain.prepare(`INSERT INTO archive_facts VALUES ('copies-due', ?)`).run(JSON.stringify(names));
    plain.close();
    const again = await openForTest(folder);
    expect(again.health()).toMatchObject({ state: 'sound', notices: [] });
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('of someone else');
    expect((await again.check()).problems).toEqual([]);
  });
});
