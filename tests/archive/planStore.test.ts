import { describe, expect, it } from 'vitest';
import { demoRange } from '../../src/stock/demoRange.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { fixedNow, seededBytes, sha256Of } from './editedSteps.ts';

const at = fixedNow();

describe('plans in the archive', () => {
  it('come back byte for byte, once for each SHA-256, under the name they first had', async () => {
    const { store, check } = await openForTest(temporaryFolder());
    const bytes = seededBytes(300_000, 1);
    const sha256 = sha256Of(bytes);
    await store.putPlan({ sha256, fileName: 'ground floor.pdf', bytes, at });
    await store.putPlan({ sha256, fileName: 'copy.pdf', bytes, at });
    const kept = await store.getPlan(sha256);
    expect(kept?.bytes).toEqual(bytes);
    expect(kept?.plan).toEqual({ sha256, fileName: 'ground floor.pdf', byteLength: 300_000, addedAt: at });
    expect((await check()).plans).toBe(1);
  });

  it('are null where there is none', async () => {
    const { store } = await openForTest(temporaryFolder());
    expect(await store.getPlan('0'.repeat(64))).toBeNull();
  });

  it('throw where the bytes are not those of the SHA-256', async () => {
    const { store } = await openForTest(temporaryFolder());
    await expect(
      store.putPlan({ sha256: '0'.repeat(64), fileName: 'a.pdf', bytes: seededBytes(10, 1), at }),
    ).rejects.toThrow('SHA-256');
  });

  it('keep readings of the reader that asks, text as text and bytes as bytes', async () => {
    const { store } = await openForTest(temporaryFolder());
    const bytes = seededBytes(5000, 1);
    const key = { sha256: sha256Of(bytes), page: 1, part: 'answer', readerVersion: '1' };
    await store.putReading(key, 'of a plan that is not there');
    await store.putPlan({ sha256: key.sha256, fileName: 'a.pdf', bytes, at });
    expect(await store.getReading(key)).toBeNull();
    await store.putReading(key, '{"text":"Café"}');
    await store.putReading({ ...key, part: 'linework' }, seededBytes(1000, 2));
    expect(await store.getReading(key)).toBe('{"text":"Café"}');
    expect(await store.getReading({ ...key, part: 'linework' })).toEqual(seededBytes(1000, 2));
    expect(await store.getReading({ ...key, readerVersion: '2' })).toBeNull();
    await store.putReading({ ...key, readerVersion: '2' }, 'newer');
    expect(await store.getReading({ ...key, readerVersion: '2' })).toBe('newer');
  });
});

describe('stock ranges in the archive', () => {
  it('are kept by id and version, and a kept version stays as it is', async () => {
    const { store } = await openForTest(temporaryFolder());
    const second = { ...demoRange, version: demoRange.version + 1, name: 'Second' };
    await store.putStockRange(second, at);
    await store.putStockRange(demoRange, at);
    await store.putStockRange({ ...demoRange, name: 'Changed' }, at);
    expect(await store.listStockRanges()).toEqual([demoRange, second]);
  });
});
