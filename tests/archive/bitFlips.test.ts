import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { type Store, StoreError } from '../../src/app/ports.ts';
import type { StoreSearch } from '../../src/app/search/searchPort.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import {
  type Edited,
  edit,
  fixedNow,
  newProject,
  projectIdOf,
  seededBytes,
  seededNumbers,
  sha256Of,
} from './editedSteps.ts';

const seed = 500;
const flips = campaignSize({ sample: 60, full: 500 });
const projectCount = 5;
const plan = seededBytes(60_000, 4);
const readingKey = { sha256: sha256Of(plan), page: 1, part: 'answer', readerVersion: '1' };

const everyBar: StoreSearch = { words: [], order: 'length', runFromMm: 1, offset: 0, most: 50 };

const issues = [1, 2, 3].map((number) => ({
  number,
  issuedAt: fixedNow(),
  issuedBy: 'Mara Okafor',
  purpose: 'tender',
  program: 'Footrail',
  inputs: JSON.stringify({ number, drawn: 'line '.repeat(9000) }),
  files: [
    // What all have in common, as the architect's page, and what each has of its own.
    {
      document: 'plan',
      fileName: 'plan.pdf',
      mediaType: 'application/pdf',
      bytes: Buffer.concat([plan, seededBytes(9000, 50 + number)]),
    },
    {
      document: 'schedule',
      fileName: 'schedule.csv',
      mediaType: 'text/csv',
      bytes: Buffer.from(`mark;piece ${number}\r\n`.repeat(3000)),
    },
  ],
}));

const fill = async (folder: string): Promise<readonly Edited[]> => {
  const { store, close } = await openForTest(folder);
  await store.putStockRange(demoRange, fixedNow());
  const edited: Edited[] = [];
  for (let number = 0; number < projectCount; number += 1)
    edited.push(await edit(store, await newProject(store, projectIdOf(number), `Bar ${number}`), 30, number));
  await store.putPlan({ sha256: sha256Of(plan), fileName: 'plan.pdf', bytes: plan, at: fixedNow() });
  await store.putPlanWords({ sha256: sha256Of(plan), page: 1, words: ['ground', 'floor'] });
  await store.saveSearch({ name: 'Long bars', search: { runFromMm: 9000 } }, fixedNow());
  await store.putReading(readingKey, 'reading '.repeat(400));
  for (const issue of issues) {
    const { projectId, revision } = edited[1]!;
    const added = await store.addIssue({
      projectId,
      expectedRevision: revision,
      issue: { ...issue, revision },
    });
    expect(added.ok).toBe(true);
  }
  close();
  return edited;
};

/** The issues of every project with each file's bytes and the inputs, by what they come to. */
const readIssues = async (store: Store) => {
  const read = [];
  for (let number = 0; number < projectCount; number += 1) {
    const projectId = projectIdOf(number);
    const list = await store.listIssues(projectId);
    for (const issue of list.issues) {
      const inputs = await store.issueInputs(projectId, issue.number);
      const files = [];
      for (const { fileName, sha256 } of issue.files) {
        const bytes = await store.issuedBytes(projectId, issue.number, fileName);
        if (bytes && sha256Of(bytes) !== sha256)
          throw new Error('Bytes that are not those of their SHA-256.');
        files.push({ fileName, sum: bytes && sha256Of(bytes) });
      }
      read.push({ projectId, issue, inputs, files });
    }
    read.push({ projectId, nextNumber: list.nextNumber });
  }
  return read;
};

/** Everything that the archive gives out, as one value. */
const readAll = async (folder: string) => {
  const archive = await openArchive({ folder, now: fixedNow });
  try {
    const { store } = archive;
    const { problems, notices } = archive.health();
    if (problems.length > 0 || notices.length > 0) return { noticed: [...problems, ...notices].join('; ') };
    const projects = [];
    const listed = await store.listProjects();
    for (let number = 0; number < projectCount; number += 1)
      projects.push(await store.loadProject(projectIdOf(number)));
    const kept = await store.getPlan(sha256Of(plan));
    const reading = await store.getReading(readingKey);
    const ranges = await store.listStockRanges();
    const found = await store.searchProjects({ ...everyBar, words: ['bar'] });
    const saved = await store.listSavedSearches();
    const issued = await readIssues(store);
    return { listed, projects, kept, reading, ranges, found, saved, issued };
  } finally {
    archive.close();
  }
};

const noticedOr = async <Value>(
  read: () => Promise<Value>,
): Promise<Value | { readonly noticed: string }> => {
  try {
    return await read();
  } catch (error) {
    if (error instanceof StoreError) return { noticed: error.code };
    throw error;
  }
};

/** Flips bits of a file and holds what the archive then gives out against what it must. */
const flipAndRead = async (options: {
  readonly sound: string;
  readonly names: readonly string[];
  readonly flipped: string;
  readonly places: (size: number, next: () => number) => number;
}): Promise<{ noticed: number; harmless: number }> => {
  const next = seededNumbers(seed);
  const truth = await readAllOfCopy(options.sound, options.names);
  const original = readFileSync(join(options.sound, options.flipped));
  let noticed = 0;
  let harmless = 0;
  for (let flip = 0; flip < flips; flip += 1) {
    const folder = temporaryFolder();
    for (const name of options.names) copyFileSync(join(options.sound, name), join(folder, name));
    const bytes = Buffer.from(original);
    const at = options.places(bytes.length, next);
    const bit = Math.floor(next() * 8);
    bytes[at] = bytes[at]! ^ (1 << bit);
    writeFileSync(join(folder, options.flipped), bytes);
    const found = await noticedOr(() => readAll(folder));
    if ('noticed' in found) {
      noticed += 1;
      continue;
    }
    expect(found, `flip ${flip} (seed ${seed}): bit ${bit} of byte ${at}`).toEqual(truth);
    harmless += 1;
  }
  return { noticed, harmless };
};

const readAllOfCopy = async (sound: string, names: readonly string[]) => {
  const folder = temporaryFolder();
  for (const name of names) copyFileSync(join(sound, name), join(folder, name));
  return readAll(folder);
};

const pageBytes = 4096;

/** Where the pages of the issues' tables and indexes begin in an archive's file, by SQLite's own `dbstat`. */
const pagesOfIssues = (path: string): readonly number[] => {
  const plain = new Database(path, { readonly: true });
  try {
    expect(plain.pragma('page_size', { simple: true })).toBe(pageBytes);
    return plain
      .prepare<[], { at: number }>(
        `SELECT pgoffset AS at FROM dbstat WHERE name LIKE '%issue%' ORDER BY pgoffset`,
      )
      .all()
      .map(({ at }) => at);
  } finally {
    plain.close();
  }
};

describe('a flipped bit', () => {
  it(`anywhere in the archive is noticed or harmless (${flips} flips, seed ${seed})`, {
    timeout: 900_000,
  }, async () => {
    const sound = temporaryFolder();
    const edited = await fill(sound);
    const counts = await flipAndRead({
      sound,
      names: ['archive.sqlite'],
      flipped: 'archive.sqlite',
      places: (size, next) => Math.floor(next() * size),
    });
    process.stdout.write(
      `\nbit flips in the archive: ${counts.noticed} noticed, ${counts.harmless} harmless, none silent\n`,
    );
    expect(counts.noticed).toBeGreaterThan(flips / 2);
    const truth = await readAllOfCopy(sound, ['archive.sqlite']);
    expect(truth).toMatchObject({ projects: edited, kept: { bytes: plan } });
    const sums = issues.flatMap(({ files }) => files.map(({ bytes }) => sha256Of(bytes)));
    const read = 'issued' in truth ? truth.issued.flatMap((one) => ('files' in one ? one.files! : [])) : [];
    expect(read.map(({ sum }) => sum)).toEqual(sums);
  });

  it(`among the issues is noticed or harmless (${flips} flips, seed ${seed})`, {
    timeout: 900_000,
  }, async () => {
    const sound = temporaryFolder();
    await fill(sound);
    const own = pagesOfIssues(join(sound, 'archive.sqlite'));
    const counts = await flipAndRead({
      sound,
      names: ['archive.sqlite'],
      flipped: 'archive.sqlite',
      places: (_, next) => own.at(next() * own.length)! + Math.floor(next() * pageBytes),
    });
    process.stdout.write(
      `\nbit flips among the issues: ${counts.noticed} noticed, ${counts.harmless} harmless, none silent\n`,
    );
    expect(counts.noticed).toBeGreaterThan(flips / 2);
  });

  it(`in its header and what follows it is noticed or harmless (${flips} flips, seed ${seed})`, {
    timeout: 900_000,
  }, async () => {
    const sound = temporaryFolder();
    await fill(sound);
    const counts = await flipAndRead({
      sound,
      names: ['archive.sqlite'],
      flipped: 'archive.sqlite',
      places: (_, next) => Math.floor(next() * 200),
    });
    process.stdout.write(
      `\nbit flips in the header: ${counts.noticed} noticed, ${counts.harmless} harmless, none silent\n`,
    );
    expect(counts.noticed).toBeGreaterThan(0);
  });

  it(`in the write-ahead log is noticed or harmless (${flips} flips, seed ${seed})`, {
    timeout: 900_000,
  }, async () => {
    const folder = temporaryFolder();
    await fill(folder);
    const sound = temporaryFolder();
    const { store } = await openForTest(folder);
    const project = await store.loadProject(projectIdOf(1));
    await edit(store, project as Edited, 12, 77);
    // As a killed process leaves them: the log is not yet part of the file.
    for (const name of ['archive.sqlite', 'archive.sqlite-wal'])
      copyFileSync(join(folder, name), join(sound, name));
    const counts = await flipAndRead({
      sound,
      names: ['archive.sqlite', 'archive.sqlite-wal'],
      flipped: 'archive.sqlite-wal',
      places: (size, next) => Math.floor(next() * size),
    });
    process.stdout.write(
      `\nbit flips in the log: ${counts.noticed} noticed, ${counts.harmless} harmless, none silent\n`,
    );
    expect(counts.noticed).toBeGreaterThan(flips / 2);
  });
});
