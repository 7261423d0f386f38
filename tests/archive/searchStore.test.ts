import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { projectFactsOf, projectFactsVersion } from '../../src/app/search/projectFacts.ts';
import { type SearchOrder, searchOrders } from '../../src/app/search/projectSearch.ts';
import type { StoreSearch } from '../../src/app/search/searchPort.ts';
import { searchWords } from '../../src/app/search/searchWords.ts';
import { archiveMigrations } from '../../src/archive/archiveMigrations.ts';
import { archivePathOf } from '../../src/archive/openArchive.ts';
import { jobStates } from '../../src/document/job.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { type ArchivedProject, archivedProjects, fillWith } from './archivedProjects.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { edit, fixedNow, newProject, projectIdOf, seededNumbers } from './editedSteps.ts';

const seed = 41;
const count = campaignSize({ sample: 150, full: 1200 });
const searches = campaignSize({ sample: 300, full: 5000 });
const everything: StoreSearch = { words: [], offset: 0, most: 2000 };

/** A run's lengths straight from its drawn points: 1:50, 72 points to the inch, no code of ours. */
const lengthsOf = ({ document }: ArchivedProject): readonly number[] =>
  document.runIds.flatMap((runId) => {
    const run = document.runs[runId]!;
    if (!document.sheets[run.sheetId]!.acceptedScale) return [];
    let total = 0;
    for (let index = 1; index < run.frontLine.length; index += 1) {
      const [a, b] = [run.frontLine[index - 1]!.at, run.frontLine[index]!.at];
      total += Math.round((Math.hypot(b.x - a.x, b.y - a.y) * 25.4 * 50) / 72);
    }
    return [total];
  });

const piecesOf = ({ document }: ArchivedProject): number | null => {
  const kept = Object.values(document.keptFits);
  if (kept.length === 0) return null;
  return kept.reduce(
    (sum, fit) => sum + (JSON.parse(fit.alternative) as { score: { pieces: number } }).score.pieces,
    0,
  );
};

/** Whatever a person wrote, looked through letter by letter with the platform's own collation of base letters. */
const isFoundBy = (project: ArchivedProject, word: string): boolean => {
  const { job, runs, stations, sheets } = project.document;
  const texts = [
    job.name,
    job.number,
    job.client,
    job.site,
    ...Object.values(runs).map(({ name }) => name),
    ...Object.values(stations).map(({ item }) => item),
    ...Object.values(sheets).flatMap(({ name, planFileName }) => [name, planFileName]),
  ];
  const sameLetters = new Intl.Collator('de', { sensitivity: 'base' });
  return texts
    .flatMap((text) => text.split(/[\s.&-]+/))
    .some(
      (one) =>
        sameLetters.compare(one.slice(0, word.length), word) === 0 ||
        (word === 'strasse' && one === 'Straße'),
    );
};

/** The same search by looking at every project, one after another. */
const scan = (projects: readonly ArchivedProject[], search: StoreSearch): readonly ArchivedProject[] =>
  projects.filter((project) => {
    const { job, stations, stockRange, sheets } = project.document;
    const lengths = lengthsOf(project);
    const pieces = piecesOf(project);
    const items = Object.values(stations).map(({ item }) => item);
    const day = project.at.slice(0, 10);
    return (
      search.words.every((word) => isFoundBy(project, word)) &&
      (!search.states?.length || search.states.includes(job.state)) &&
      (search.client === undefined || job.client === search.client) &&
      (search.rangeId === undefined || stockRange.id === search.rangeId) &&
      (search.stations ?? []).every((item) => items.includes(item)) &&
      (search.planSha256 === undefined ||
        Object.values(sheets).some(({ planSha256 }) => planSha256 === search.planSha256)) &&
      (search.tenderFrom === undefined || job.tenderDate >= search.tenderFrom) &&
      (search.tenderTo === undefined || (job.tenderDate !== '' && job.tenderDate <= search.tenderTo)) &&
      (search.changedFrom === undefined || day >= search.changedFrom) &&
      (search.changedTo === undefined || day <= search.changedTo) &&
      (search.retainedBefore === undefined ||
        (job.retainUntil !== '' && job.retainUntil < search.retainedBefore)) &&
      ((search.runFromMm === undefined && search.runToMm === undefined) ||
        lengths.some((mm) => mm >= (search.runFromMm ?? 0) && mm <= (search.runToMm ?? Infinity))) &&
      (search.piecesFrom === undefined || (pieces !== null && pieces >= search.piecesFrom)) &&
      (search.piecesTo === undefined || (pieces !== null && pieces <= search.piecesTo))
    );
  });

const words = [
  'quay',
  'lan',
  'cafe',
  'strasse',
  'rev',
  'j0001',
  'salt',
  'beer',
  'dock',
  'c',
  'nowhere',
  'hotel',
  '7',
];

const drawSearch = (next: () => number, projects: readonly ArchivedProject[]): StoreSearch => {
  const pick = <Value>(values: readonly Value[]): Value => values[Math.floor(next() * values.length)]!;
  const sometimes = (part: number): boolean => next() < part;
  const day = () => `20${20 + Math.floor(next() * 8)}-0${1 + Math.floor(next() * 9)}-15`;
  return {
    words: Array.from({ length: Math.floor(next() * 3) }, () => pick(words)),
    ...(sometimes(0.3) ? { states: jobStates.filter(() => sometimes(0.5)) } : {}),
    ...(sometimes(0.2) ? { client: pick(['Salt Lane', 'Straße & Söhne', 'Nobody']) } : {}),
    ...(sometimes(0.2)
      ? { rangeId: pick(['other-range', 'demo', pick(projects).document.stockRange.id]) }
      : {}),
    ...(sometimes(0.2) ? { stations: [pick(['beer-tower', 'till-point', 'till'])] } : {}),
    ...(sometimes(0.1) ? { planSha256: Object.values(pick(projects).document.sheets)[0]!.planSha256 } : {}),
    ...(sometimes(0.2) ? { tenderFrom: day() } : {}),
    ...(sometimes(0.2) ? { tenderTo: day() } : {}),
    ...(sometimes(0.15) ? { changedFrom: day() } : {}),
    ...(sometimes(0.15) ? { changedTo: day() } : {}),
    ...(sometimes(0.1) ? { retainedBefore: day() } : {}),
    ...(sometimes(0.3) ? { runFromMm: Math.floor(next() * 9000) } : {}),
    ...(sometimes(0.3) ? { runToMm: Math.floor(next() * 12000) } : {}),
    ...(sometimes(0.2) ? { piecesFrom: Math.floor(next() * 10) } : {}),
    ...(sometimes(0.1) ? { piecesTo: Math.floor(next() * 14) } : {}),
    offset: 0,
    most: 2000,
  };
};

const idsOf = (projects: readonly { readonly projectId: string }[]): readonly string[] =>
  projects.map(({ projectId }) => projectId).sort();

describe('a search of the archive', () => {
  it(`finds what looking at every project finds (${searches} searches of ${count} projects, seed ${seed})`, async () => {
    const { store } = await openForTest(temporaryFolder());
    const projects = archivedProjects(count, seed);
    await fillWith(store, projects);
    const next = seededNumbers(seed);
    let found = 0;
    for (let number = 0; number < searches; number += 1) {
      const search = drawSearch(next, projects);
      const page = await store.searchProjects(search);
      const due = scan(projects, search);
      expect(idsOf((page?.projects ?? []).map(({ project }) => project)), JSON.stringify(search)).toEqual(
        idsOf(due),
      );
      expect(page?.total).toBe(due.length);
      const anyState = scan(projects, { ...search, states: [] });
      expect(new Map(page?.states.map(({ value, count: many }) => [value, many]))).toEqual(
        new Map(
          jobStates
            .map(
              (state) =>
                [state, anyState.filter(({ document }) => document.job.state === state).length] as const,
            )
            .filter(([, many]) => many > 0),
        ),
      );
      found += due.length > 0 ? 1 : 0;
    }
    process.stdout.write(`\n${found} of ${searches} searches found something\n`);
    expect(found).toBeGreaterThan(searches / 10);
  });

  it.each(searchOrders)('by %s gives every project once over its pages, in order', async (order) => {
    const { store } = await openForTest(temporaryFolder());
    await fillWith(store, archivedProjects(37, 5));
    const keyOf: Readonly<Record<SearchOrder, (row: Row) => string | number | null>> = {
      changed: ({ project }) => -Number(project.projectId.slice('project-'.length)),
      name: ({ facts }) => facts.nameKey,
      number: ({ facts }) => facts.numberKey,
      client: ({ facts }) => facts.clientKey,
      state: ({ project }) => project.state,
      'tender-date': ({ project }) => project.tenderDate,
      length: ({ facts }) => {
        const lengths = facts.runs.filter(({ straightsMm }) => straightsMm.length > 0);
        return lengths.length === 0
          ? null
          : lengths.flatMap(({ straightsMm }) => straightsMm).reduce((a, b) => a + b);
      },
      pieces: ({ facts }) =>
        facts.runs.reduce<number | null>(
          (sum, { pieces }) => (pieces === null ? sum : (sum ?? 0) + pieces),
          null,
        ),
    };
    type Page = NonNullable<Awaited<ReturnType<typeof store.searchProjects>>>;
    type Row = Page['projects'][number];
    const rows: Row[] = [];
    for (let offset = 0; offset < 40; offset += 10)
      rows.push(
        ...((await store.searchProjects({ ...everything, order, offset, most: 10 }))?.projects ?? []),
      );
    expect(new Set(rows.map(({ project }) => project.projectId)).size).toBe(37);
    const keys = rows.map(keyOf[order]);
    const known = keys.filter((key) => key !== null);
    expect(keys.slice(0, known.length)).toEqual(known);
    for (const [index, key] of known.slice(1).entries()) expect(key >= known[index]!).toBe(true);
    const backwards = await store.searchProjects({ ...everything, order, descending: order !== 'changed' });
    const [first] = backwards?.projects ?? [];
    expect(first && keyOf[order](first)).toBe(known.at(-1));
  });

  it('takes words of the query language for words', async () => {
    const { store } = await openForTest(temporaryFolder());
    await newProject(store, projectIdOf(1), 'Salt AND Vinegar NOT "Near" *');
    for (const word of ['and', 'not', 'near', 'or', 'vineg'])
      expect((await store.searchProjects({ ...everything, words: [word] }))?.total, word).toBe(
        word === 'or' ? 0 : 1,
      );
    expect((await store.searchProjects({ ...everything, words: ['" OR *'] }))?.total).toBe(0);
  });

  it('knows a project by its last change, and no more once it is removed', async () => {
    const { store } = await openForTest(temporaryFolder());
    const start = await newProject(store, projectIdOf(1), 'Before');
    const edited = await edit(store, start, 120, 9);
    const page = await store.searchProjects({
      ...everything,
      words: [...searchWords(edited.document.job.name)],
    });
    expect(page?.projects.map(({ facts }) => facts)).toEqual([
      JSON.parse(JSON.stringify(projectFactsOf(edited.document))),
    ]);
    await store.removeProject(projectIdOf(1), fixedNow());
    expect(await store.searchProjects(everything)).toMatchObject({ total: 0, projects: [], states: [] });
  });

  it('reads the text on the plans, also where it is read after the project was made', async () => {
    const archive = await openForTest(temporaryFolder());
    const { store } = archive;
    const projects = archivedProjects(6, 3);
    await fillWith(store, projects);
    const { planSha256 } = Object.values(projects[2]!.document.sheets)[0]!;
    const search = { ...everything, words: ['mezzanine'] };
    expect((await store.searchProjects(search))?.total).toBe(0);
    await store.putPlanWords({ sha256: planSha256, page: 1, words: ['mezzanine', 'level'] });
    const stale = await store.staleProjects(projectFactsVersion, 100);
    expect(stale.map(({ projectId }) => projectId)).toContain(projects[2]!.projectId);
    for (const { projectId, revision } of stale) {
      const { document } = projects.find((one) => one.projectId === projectId)!;
      await store.putFacts({ projectId, revision, facts: projectFactsOf(document) });
    }
    expect(await store.staleProjects(projectFactsVersion, 100)).toEqual([]);
    expect((await store.searchProjects(search))?.projects.map(({ project }) => project.projectId)).toContain(
      projects[2]!.projectId,
    );
    expect((await archive.check()).problems).toEqual([]);
  });

  it('passes over facts of another revision than the project’s', async () => {
    const { store } = await openForTest(temporaryFolder());
    const edited = await edit(store, await newProject(store, projectIdOf(1)), 3, 2);
    const facts = { ...projectFactsOf(edited.document), nameKey: 'elsewhere' };
    await store.putFacts({ projectId: projectIdOf(1), revision: 2, facts });
    expect((await store.searchProjects(everything))?.projects[0]?.facts.nameKey).not.toBe('elsewhere');
  });
});

describe('an archive from before there was a search', () => {
  it('has every project waiting for its facts', async () => {
    const folder = temporaryFolder();
    const old = await openForTest(folder);
    await fillWith(old.store, archivedProjects(8, 1));
    old.close();
    // Version 1 as that program left it: its tables alone, filled as it filled them.
    const path = archivePathOf(folder);
    const database = new Database(path);
    for (const name of [
      'project_search',
      'run_rows',
      'search_rows',
      'search_facts',
      'stale_facts',
      'plan_words',
      'saved_searches',
      'issues',
      'issue_parts',
      'purged_issues',
      'issue_numbers',
    ])
      database.exec(`DROP TABLE ${name}`);
    database.exec(`ALTER TABLE events DROP COLUMN made_by;
      DELETE FROM tallies WHERE name IN ('search_rows', 'saved_searches', 'issues', 'issue_numbers');
      UPDATE archive_facts SET value = '1' WHERE name = 'version'; PRAGMA user_version = 1`);
    database.close();
    const asVersion1 = await openForTest(folder, { migrations: archiveMigrations.slice(0, 1) });
    expect(asVersion1.health()).toMatchObject({ state: 'sound', problems: [] });
    expect(await asVersion1.store.searchProjects(everything)).toBeNull();
    expect(await asVersion1.store.listSavedSearches()).toEqual([]);
    expect((await asVersion1.check()).problems).toEqual([]);
    asVersion1.close();

    const { store, backups } = await openForTest(folder);
    expect(backups()).toHaveLength(1);
    expect((await store.listProjects()).length).toBe(8);
    expect(await store.staleProjects(projectFactsVersion, 100)).toHaveLength(8);
    for (const { projectId, revision, document } of await store.staleProjects(projectFactsVersion, 100))
      await store.putFacts({ projectId, revision, facts: projectFactsOf(document as never) });
    expect((await store.searchProjects(everything))?.total).toBe(8);
  });
});

describe('saved searches', () => {
  it('are kept by name, the last of a name in place of the first', async () => {
    const folder = temporaryFolder();
    const { store, close } = await openForTest(folder);
    await store.saveSearch({ name: 'Long', search: { runFromMm: 8000 } }, fixedNow());
    await store.saveSearch({ name: 'Lost', search: { states: ['lost'] } }, fixedNow());
    await store.saveSearch({ name: 'Long', search: { runFromMm: 9000 } }, fixedNow());
    expect(await store.removeSavedSearch('Nothing')).toBe(false);
    close();
    const again = await openForTest(folder);
    expect(again.health().state).toBe('sound');
    expect(await again.store.listSavedSearches()).toEqual([
      { name: 'Long', search: { runFromMm: 9000 } },
      { name: 'Lost', search: { states: ['lost'] } },
    ]);
    expect(await again.store.removeSavedSearch('Long')).toBe(true);
    expect((await again.check()).problems).toEqual([]);
  });
});

describe('who made a change', () => {
  it('is kept with it, and can’t be changed unseen', async () => {
    const folder = temporaryFolder();
    const { store, close } = await openForTest(folder);
    const start = await newProject(store, projectIdOf(1));
    const patch = { forward: [], inverse: [] };
    const event = { kind: 'command' as const, label: 'Nothing', patch, at: fixedNow(), by: 'mara' };
    await store.appendEvent({
      projectId: projectIdOf(1),
      expectedRevision: 0,
      event,
      document: start.document,
    });
    expect(await store.listEvents(projectIdOf(1))).toEqual([event]);
    close();
    const database = new Database(archivePathOf(folder));
    database.exec(`DROP TRIGGER events_are_never_changed; UPDATE events SET made_by = 'ivor'`);
    const { sql } = archiveMigrations[0]!;
    database.exec(/CREATE TRIGGER[\s\S]*?END;/.exec(sql)![0]);
    database.close();
    const changed = await openForTest(folder);
    await expect(changed.store.listEvents(projectIdOf(1))).rejects.toMatchObject({ code: 'archive-damaged' });
  });
});
