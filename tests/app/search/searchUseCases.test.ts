import { describe, expect, it } from 'vitest';
import { StoreError } from '../../../src/app/ports.ts';
import { projectFactsOf, projectFactsVersion } from '../../../src/app/search/projectFacts.ts';
import type { SearchStore } from '../../../src/app/search/searchPort.ts';
import { runDifferenceMm } from '../../../src/app/search/searchUseCases.ts';
import type { RunId } from '../../../src/document/ids.ts';
import { readCsvRows } from '../../../src/stock/csvRows.ts';
import { archivedProjects, fillWith } from '../../archive/archivedProjects.ts';
import { openForTest, temporaryFolder } from '../../archive/editedArchive.ts';
import { createMemoryStore } from '../memoryStore.ts';
import { apiForTest } from '../portsForTest.ts';

const plan = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('a search through the API', () => {
  it('finds projects whose facts nobody has worked out yet', async () => {
    const { store } = await openForTest(temporaryFolder());
    for (const { projectId, document, at } of archivedProjects(12, 2))
      await store.createProject({ projectId, document, at });
    const { done } = apiForTest({ store });
    expect(await done('search-projects', { search: {} })).toMatchObject({ total: 12, isPartial: false });
    expect(await store.staleProjects(projectFactsVersion, 10)).toEqual([]);
  });

  it('says that it is partial where the archive can’t be written', async () => {
    const { store } = await openForTest(temporaryFolder());
    for (const { projectId, document, at } of archivedProjects(3, 2))
      await store.createProject({ projectId, document, at });
    const readOnly: Partial<SearchStore> = {
      putFacts: async () => {
        throw new StoreError('archive-read-only', 'read-only');
      },
    };
    const { done } = apiForTest({ store: { ...store, ...readOnly } });
    expect(await done('search-projects', { search: {} })).toMatchObject({ total: 0, isPartial: true });
  });

  it('looks through the list where the archive is too old to search', async () => {
    const store = { ...createMemoryStore(), searchProjects: async () => null };
    const { done } = apiForTest({ store });
    await done('create-project', { name: 'Quay Street Tap' });
    await done('create-project', { name: 'Mill Rooms' });
    const found = await done('search-projects', { search: { words: 'quay' } });
    expect(found).toMatchObject({ total: 1, isPartial: true, projects: [{ facts: null }] });
  });

  it.each([
    ['an unknown state', { states: ['won'] }],
    ['a day that no calendar has', { tenderFrom: '2027-02-30' }],
    ['a wish that is none', { colour: 'red' }],
    ['a length below nothing', { runFromMm: -1 }],
  ])('refuses %s', async (_, search) => {
    const { api } = apiForTest();
    expect(await api.call('search-projects', { search })).toMatchObject({ error: { code: 'bad-input' } });
  });

  it('lists as CSV that a spreadsheet does not run', async () => {
    const { done } = apiForTest();
    await done('create-project', { name: '=HYPERLINK("evil")' });
    await done('create-project', { name: 'Bar, "Quay"' });
    const { bytes, mediaType } = await done('export-project-list', { search: {} });
    const rows = readCsvRows(new TextDecoder('utf-8', { ignoreBOM: false }).decode(bytes), ',');
    expect(mediaType).toBe('text/csv');
    expect(rows.ok && rows.rows.map(({ cells }) => cells[0])).toEqual([
      'Project',
      'Bar, "Quay"',
      '\'=HYPERLINK("evil")',
    ]);
  });
});

describe('a plan taken in as an enquiry', () => {
  it('makes one project for each file, found by the text on it', async () => {
    const { store } = await openForTest(temporaryFolder());
    const { done } = apiForTest({ store });
    const first = await done('take-in-enquiry', { fileName: 'Weir.PDF', bytes: plan('Mezzanine over') });
    expect(first).toMatchObject({ name: 'Weir', outcome: 'made', pages: 1, unread: null });
    const again = await done('take-in-enquiry', {
      fileName: 'Other name.pdf',
      bytes: plan('Mezzanine over'),
    });
    expect(again).toMatchObject({ projectId: first.projectId, outcome: 'known' });
    await done('take-in-enquiry', { fileName: 'Weir.pdf', bytes: plan('Cellar') });
    const found = await done('search-projects', { search: { words: 'mezz' } });
    expect(found.projects.map(({ project }) => [project.projectId, project.state])).toEqual([
      [first.projectId, 'enquiry'],
    ]);
    expect((await done('search-projects', { search: { words: 'weir' } })).total).toBe(2);
  });
});

describe('runs like one another', () => {
  const run = (straightsMm: readonly number[], turnsDeg: readonly number[]) => ({ straightsMm, turnsDeg });

  it.each([
    ['the same', run([2680, 8700], [90]), run([2680, 8700], [90]), 0],
    ['walked from the other end', run([2680, 8700], [90]), run([8700, 2690], [90]), 10],
    ['a little longer', run([2680, 8700], [90]), run([2700, 8650], [91]), 50],
    ['of other lengths', run([2680, 8700], [90]), run([2680, 9600], [90]), null],
    ['turned the other way', run([2680, 8700], [90]), run([2680, 8700], [-90]), null],
    ['with one straight more', run([2680, 8700], [90]), run([2680, 8700, 600], [90, 90]), null],
    ['symmetric', run([1000, 2000, 1000], [90, 90]), run([1010, 2000, 1005], [90, 90]), 10],
  ])('are told: %s', (_, one, other, differenceMm) => {
    expect(runDifferenceMm(one, other)).toBe(differenceMm);
    expect(runDifferenceMm(other, one)).toBe(differenceMm);
  });

  it('are found among other projects, the likest first', async () => {
    const { store } = await openForTest(temporaryFolder());
    const projects = archivedProjects(40, 6);
    for (const { projectId, document, at } of projects)
      await store.createProject({ projectId, document, at });
    const model = projects.find(({ document }) =>
      Object.values(document.sheets).every(({ acceptedScale }) => acceptedScale !== null),
    )!;
    // The same counter in another project, 60 mm longer: 1:50, 72 points to the inch.
    const runId = model.document.runIds[0]!;
    const run = model.document.runs[runId]!;
    const frontLine = run.frontLine.map((vertex, index) => ({
      ...vertex,
      at: index === 0 ? vertex.at : { ...vertex.at, x: vertex.at.x + (60 * 72) / 25.4 / 50 },
    })) as unknown as typeof run.frontLine;
    const document = { ...model.document, runs: { ...model.document.runs, [runId]: { ...run, frontLine } } };
    await store.createProject({
      projectId: 'project-like' as never,
      document,
      at: '2027-03-15T00:00:00.000Z',
    });
    const { api, done } = apiForTest({ store });
    const { runs } = await done('similar-runs', { projectId: model.projectId, runId });
    expect(runs[0]).toMatchObject({ project: { projectId: 'project-like' }, runId, differenceMm: 60 });
    expect(runs.every(({ project }) => project.projectId !== model.projectId)).toBe(true);
    expect(
      await api.call('similar-runs', { projectId: model.projectId, runId: 'run-none' as RunId }),
    ).toMatchObject({ error: { code: 'run-without-length' } });
  });
});

describe('runs like one', () => {
  it('are the same as by looking at every run of every project', async () => {
    const { store } = await openForTest(temporaryFolder());
    const projects = archivedProjects(300, 17);
    await fillWith(store, projects);
    const all = projects.map(({ projectId, document }) => ({ projectId, facts: projectFactsOf(document) }));
    const { done } = apiForTest({ store });
    let found = 0;
    for (const { projectId, facts } of all.slice(0, 25))
      for (const run of facts.runs.filter(({ straightsMm }) => straightsMm.length > 0))
        for (const most of [3, 100]) {
          const due = all
            .filter((other) => other.projectId !== projectId)
            .flatMap((other) => other.facts.runs.flatMap((one) => runDifferenceMm(run, one) ?? []))
            .sort((one, other) => one - other)
            .slice(0, most);
          const { runs } = await done('similar-runs', { projectId, runId: run.runId, most });
          expect(runs.map(({ differenceMm }) => differenceMm)).toEqual(due);
          found += due.length;
        }
    expect(found).toBeGreaterThan(100);
  });
});

describe('the archive’s health through the API', () => {
  it('names the place and the backups of a sound archive', async () => {
    const archive = await openForTest(temporaryFolder());
    const { done } = apiForTest({ store: archive.store });
    await done('create-project', { name: 'Quay' });
    const backup = await archive.backUp();
    expect(await done('archive-health', {})).toMatchObject({
      state: 'sound',
      advice: '',
      place: archive.path,
      backups: [{ name: backup!.name, isGood: null }],
    });
  });
});
