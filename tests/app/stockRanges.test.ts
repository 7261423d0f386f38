import { describe, expect, it } from 'vitest';
import type { ApiAnswer, ApiInput, ApiMethod, ApiOutput } from '../../src/app/apiMethods.ts';
import { createApi } from '../../src/app/createApi.ts';
import type { Ports } from '../../src/app/ports.ts';
import { utf8 } from '../../src/app/utf8.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { createMemoryStore } from './memoryStore.ts';

const apiForTest = () => {
  let serial = 0;
  const ports: Ports = {
    store: createMemoryStore(),
    plans: {
      version: '1',
      pages: async () => [],
      register: async () => ({ isRegistered: false, reasons: [] }),
      readPage: async () => ({ answer: {} as never, linework: new Uint8Array(), text: '' }),
    },
    now: () => '2027-03-01T10:00:00.000Z',
    freshId: () => {
      serial += 1;
      return `t${String(serial).padStart(6, '0')}`;
    },
    sha256: async () => '0'.repeat(64),
    font: async () => new Uint8Array(),
  };
  const api = createApi(ports);
  const call = async <Method extends ApiMethod>(method: Method, input: ApiInput<Method>) =>
    (await api.call(method, input)) as ApiAnswer<ApiOutput<Method>>;
  const done = async <Method extends ApiMethod>(method: Method, input: ApiInput<Method>) => {
    const answer = await call(method, input);
    if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
    return answer.value;
  };
  return { call, done };
};

const copied: StockRange = { ...demoRange, id: 'quay-yard', name: 'Quay Yard 2027', invented: false };
const dearer = (range: StockRange): StockRange => ({
  ...range,
  items: range.items.map((item) => (item.id === 'module-900' ? { ...item, price: 999 } : item)),
});

describe('stock ranges through the API', () => {
  it('saves every change as the next version and leaves the versions before as they are', async () => {
    const { done } = apiForTest();
    await done('list-stock-ranges', {});
    const { range } = await done('save-stock-range', { range: dearer(demoRange), after: 1 });
    expect(range.version).toBe(2);
    const { ranges } = await done('list-stock-ranges', {});
    expect(ranges.map(({ id, version }) => [id, version])).toEqual([
      ['demo-range', 1],
      ['demo-range', 2],
    ]);
    expect(ranges[0]).toEqual(demoRange);
    expect(ranges[1]?.items.find(({ id }) => id === 'module-900')?.price).toBe(999);
  });

  it('keeps a project with the version that it was fitted with until the project chooses another', async () => {
    const { done } = apiForTest();
    const opened = await done('create-project', { name: 'Quay Street Tap' });
    await done('save-stock-range', { range: dearer(demoRange), after: 1 });
    const again = await done('open-project', { projectId: opened.projectId });
    expect(again.document.stockRange).toEqual({ id: 'demo-range', version: 1 });
    await done('apply-command', {
      projectId: opened.projectId,
      revision: again.revision,
      command: { type: 'choose-stock-range', stockRange: { id: 'demo-range', version: 2 } },
    });
    const chosen = await done('open-project', { projectId: opened.projectId });
    expect(chosen.document.stockRange.version).toBe(2);
    expect(chosen.undoLabel).toBe('Choose a stock range');
  });

  it('copies a range under an id of its own, which may call itself real', async () => {
    const { call, done } = apiForTest();
    const { range } = await done('save-stock-range', { range: { ...copied, version: 41 }, after: 0 });
    expect([range.id, range.version, range.invented]).toEqual(['quay-yard', 1, false]);
    expect(await call('save-stock-range', { range: copied, after: 0 })).toMatchObject({
      ok: false,
      error: { code: 'stock-range-exists', path: 'range.id' },
    });
  });

  it('never lets the demo range pass for a real one', async () => {
    const { call } = apiForTest();
    expect(
      await call('save-stock-range', { range: { ...demoRange, invented: false }, after: 1 }),
    ).toMatchObject({ ok: false, error: { code: 'demo-range-is-invented' } });
  });

  it('refuses to save over a version that the editor has not seen', async () => {
    const { call, done } = apiForTest();
    await done('save-stock-range', { range: copied, after: 0 });
    await done('save-stock-range', { range: dearer(copied), after: 1 });
    expect(await call('save-stock-range', { range: copied, after: 1 })).toMatchObject({
      ok: false,
      error: { code: 'stock-range-moved-on', message: expect.stringContaining('Version 2') },
    });
    expect((await done('list-stock-ranges', {})).ranges).toHaveLength(3);
  });

  it('refuses a range that does not hold together, with the place', async () => {
    const { call } = apiForTest();
    const [first] = demoRange.items;
    if (!first) throw new Error('the demo range has modules');
    const broken = { ...demoRange, items: [first, { ...first, widthMm: 0 }] };
    expect(await call('save-stock-range', { range: broken, after: 1 })).toMatchObject({
      ok: false,
      error: { code: 'bad-input', path: 'range.items.1.widthMm' },
    });
  });

  it('gives a version as CSV and reads the same list back as a proposal, saving nothing', async () => {
    const { done } = apiForTest();
    const file = await done('stock-range-csv', { id: 'demo-range', version: 1 });
    expect(file.fileName).toBe('Demo-range-invented-version-1.csv');
    const { reading } = await done('read-stock-csv', { id: 'demo-range', version: 1, bytes: file.bytes });
    expect(reading).toEqual({ ok: true, range: { ...demoRange, version: 2 } });
    expect((await done('list-stock-ranges', {})).ranges).toHaveLength(1);
  });

  it('gives every fault of a list with its line and column', async () => {
    const { done } = apiForTest();
    const bytes = utf8(
      'row,id,name,kind,widthMm,support\r\nitem,m-1,One,module,six,standing\r\nitem,m-2,,module,600,hung\r\n',
    );
    const { reading } = await done('read-stock-csv', { id: 'demo-range', version: 1, bytes });
    expect(reading.ok ? [] : reading.errors.map(({ line, column, code }) => [line, column, code])).toEqual([
      [2, 'widthMm', 'not-a-number'],
      [3, 'name', 'empty-cell'],
      [3, 'support', 'bad-value'],
    ]);
  });

  it('says which range is missing where a version is not in the archive', async () => {
    const { call } = apiForTest();
    expect(await call('stock-range-csv', { id: 'demo-range', version: 7 })).toMatchObject({
      ok: false,
      error: { code: 'stock-range-missing', message: expect.stringContaining('"demo-range" version 7') },
    });
  });
});
