import { hash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import type { Store } from '../app/ports.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { type ArchiveConnection, BrokenContentError } from './archiveConnection.ts';
import { contentDigest, rowDigest, sameDigest, storableText } from './rowDigest.ts';
import { changeTally, digestOfRow, isRowIntact, verifyRows, verifyTable } from './talliedTables.ts';

interface PlanRecord {
  readonly plan_key: number;
  readonly sha256: string;
  readonly file_name: string;
  readonly byte_length: number;
  readonly added_at: string;
  readonly digest: Uint8Array;
}

interface ReadingRecord {
  readonly reader_version: string;
  readonly reading: Uint8Array | string;
  readonly digest: Uint8Array;
}

interface RangeRecord {
  readonly range_id: string;
  readonly version: number;
  readonly range: string;
  readonly digest: Uint8Array;
}

/** The statements that opening a sheet passes through; tests assert how SQLite plans them. */
export const planQueries = {
  plan: `SELECT * FROM plans WHERE sha256 = ?`,
  bytes: `SELECT bytes FROM plan_bytes WHERE plan_key = ?`,
  reading: `SELECT reader_version, reading, digest FROM readings WHERE sha256 = ? AND page = ? AND part = ?`,
  range: `SELECT * FROM stock_ranges WHERE range_id = ? AND version = ?`,
} as const;

const plainBytes = (bytes: Uint8Array): Uint8Array =>
  new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength);

const nextKey = (
  database: Database,
  table: 'plans' | 'stock_ranges',
  column: 'plan_key' | 'range_key',
): number =>
  database.prepare<[], { key: number }>(`SELECT coalesce(max(${column}), 0) + 1 AS key FROM ${table}`).get()!
    .key;

const findIntactPlan = (database: Database, sha256: string): PlanRecord | null => {
  const plan = database.prepare<[string], PlanRecord>(planQueries.plan).get(sha256);
  if (plan) {
    if (!isRowIntact('plans', plan))
      throw new BrokenContentError(`the entry of the plan "${plan.file_name}" is not as it was written`);
    return plan;
  }
  const [problem] = verifyTable(database, 'plans');
  if (problem !== undefined) throw new BrokenContentError(problem);
  const all = database.prepare<[], { sha256: string }>('SELECT sha256 FROM plans NOT INDEXED');
  for (const row of all.iterate())
    if (row.sha256 === sha256) throw new BrokenContentError('the index of the plans is broken');
  return null;
};

/** Keeps a plan inside the caller's transaction; one that is there already stays as it is. */
export const keepPlan = (
  database: Database,
  { sha256, fileName, bytes, at }: Parameters<Store['putPlan']>[0],
): void => {
  if (hash('sha256', bytes, 'hex') !== sha256)
    throw new Error('putPlan was given bytes under a SHA-256 that is not theirs.');
  if (findIntactPlan(database, sha256)) return;
  const record = {
    plan_key: nextKey(database, 'plans', 'plan_key'),
    sha256,
    file_name: storableText(fileName),
    byte_length: bytes.byteLength,
    added_at: at,
  };
  const digest = digestOfRow('plans', record);
  database
    .prepare(
      `INSERT INTO plans (plan_key, sha256, file_name, byte_length, added_at, digest)
       VALUES (:plan_key, :sha256, :file_name, :byte_length, :added_at, :digest)`,
    )
    .run({ ...record, digest });
  database.prepare('INSERT INTO plan_bytes (plan_key, bytes) VALUES (?, ?)').run(record.plan_key, bytes);
  changeTally(database, 'plans', { before: null, after: digest });
};

/** Keeps a version of a stock range inside the caller's transaction; one that is there already stays as it is. */
export const keepStockRange = (database: Database, range: StockRange, at: string): void => {
  const kept = database
    .prepare<[string, number], RangeRecord>(planQueries.range)
    .get(range.id, range.version);
  if (kept) {
    if (!isRowIntact('stock_ranges', kept))
      throw new BrokenContentError(`the stock range "${range.id}" is not as it was written`);
    return;
  }
  const record = {
    range_key: nextKey(database, 'stock_ranges', 'range_key'),
    range_id: range.id,
    version: range.version,
    range: JSON.stringify(range),
    added_at: at,
  };
  const digest = digestOfRow('stock_ranges', record);
  database
    .prepare(
      `INSERT INTO stock_ranges (range_key, range_id, version, range, added_at, digest)
       VALUES (:range_key, :range_id, :version, :range, :added_at, :digest)`,
    )
    .run({ ...record, digest });
  changeTally(database, 'stock_ranges', { before: null, after: digest });
};

/** Whether the archive has a plan still: what is read of one while it is purged is not kept. */
export const hasPlan = (database: Database, sha256: string): boolean =>
  database.prepare<[string]>('SELECT 1 FROM plans WHERE sha256 = ?').get(sha256) !== undefined;

/** The part of the store that keeps what was given to us: plans, what was read from them, stock ranges. */
export const createPlanStore = (
  archive: ArchiveConnection,
): Pick<Store, 'putPlan' | 'getPlan' | 'putReading' | 'getReading' | 'listStockRanges' | 'putStockRange'> => {
  const { database } = archive;
  const findBytes = database.prepare<[number], { bytes: Uint8Array }>(planQueries.bytes);
  const findReading = database.prepare<[string, number, string], ReadingRecord>(planQueries.reading);

  return {
    putPlan: async (plan) => archive.write(() => keepPlan(database, plan)),

    getPlan: async (sha256) =>
      archive.read(() => {
        const plan = findIntactPlan(database, sha256);
        if (!plan) return null;
        const bytes = findBytes.get(plan.plan_key)?.bytes;
        if (!bytes || hash('sha256', bytes, 'hex') !== sha256)
          throw new BrokenContentError(
            `the bytes of the plan "${plan.file_name}" are not as they were written`,
          );
        return {
          plan: {
            sha256,
            fileName: plan.file_name,
            byteLength: plan.byte_length,
            addedAt: plan.added_at,
          },
          bytes: plainBytes(bytes),
        };
      }),

    putReading: async ({ sha256, page, part, readerVersion }, reading) =>
      archive.write(() => {
        if (!hasPlan(database, sha256)) return;
        database
          .prepare(
            `INSERT INTO readings (sha256, page, part, reader_version, reading, digest) VALUES (?, ?, ?, ?, ?, ?)
             ON CONFLICT (sha256, page, part) DO UPDATE SET
               reader_version = excluded.reader_version, reading = excluded.reading, digest = excluded.digest`,
          )
          .run(
            sha256,
            page,
            part,
            readerVersion,
            reading,
            rowDigest([sha256, page, part, readerVersion, contentDigest(reading)]),
          );
      }),

    getReading: async ({ sha256, page, part, readerVersion }) =>
      archive.read(() => {
        const kept = findReading.get(sha256, page, part);
        if (!kept) return null;
        const digest = rowDigest([sha256, page, part, kept.reader_version, contentDigest(kept.reading)]);
        if (!sameDigest(digest, kept.digest))
          throw new BrokenContentError(`a reading of page ${page} of a plan is not as it was written`);
        if (kept.reader_version !== readerVersion) return null;
        return typeof kept.reading === 'string' ? kept.reading : plainBytes(kept.reading);
      }),

    listStockRanges: async () =>
      archive.read(() => {
        const records = database
          .prepare<[], RangeRecord>('SELECT * FROM stock_ranges ORDER BY range_id, version')
          .all();
        const [problem] = verifyRows(database, 'stock_ranges', records);
        if (problem !== undefined) throw new BrokenContentError(problem);
        return records.map((record) => JSON.parse(record.range) as StockRange);
      }),

    putStockRange: async (range, at) => archive.write(() => keepStockRange(database, range, at)),
  };
};
