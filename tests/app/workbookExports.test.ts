import { beforeAll, describe, expect, it } from 'vitest';
import { createApi } from '../../src/app/createApi.ts';
import { createPortsOver } from '../../src/host/nodePorts.ts';
import { evaluateAll, readBack, tableOf } from '../issue/workbook/readBack.ts';
import { createMemoryStore } from './memoryStore.ts';

const api = createApi(createPortsOver(createMemoryStore()));
let projectId = '';
beforeAll(async () => {
  const opened = await api.call('open-demo', {});
  if (!opened.ok) throw new Error(opened.error.message);
  ({ projectId } = opened.value as { projectId: string });
});

const exported = async (more: object = {}) => {
  const answer = await api.call('export-workbook', { projectId, ...more });
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.value as { fileName: string; mediaType: string; bytes: Uint8Array };
};

describe('the demo project’s workbook', () => {
  it('opens in another reader, and every formula comes to the value beside it', async () => {
    const { fileName, bytes } = await exported({
      quote: { discountBasisPoints: 500, tax: { name: 'VAT', basisPoints: 1_900 } },
    });
    expect(fileName).toMatch(/-workbook\.xlsx$/);
    const workbook = await readBack(bytes);
    const formulas = evaluateAll(workbook);
    expect(formulas.length).toBeGreaterThan(20);
    for (const { sheet, address, kept, evaluated } of formulas)
      expect(evaluated, `${sheet}!${address}`).toBeCloseTo(kept, 9);
    expect(tableOf(workbook.getWorksheet('Services')!).length).toBeGreaterThan(3);
  });

  it('has its tables as CSV files as well, one for each sheet', async () => {
    const workbook = await readBack((await exported()).bytes);
    const answer = await api.call('export-csvs', { projectId });
    if (!answer.ok) throw new Error(answer.error.message);
    const { files } = answer.value as { files: { fileName: string; text: string }[] };
    expect(files.length).toBe(workbook.worksheets.length);
    for (const { fileName, text } of files) {
      expect(fileName).toMatch(/\.csv$/);
      expect(text.split('\r\n').length).toBeGreaterThan(1);
    }
  });

  it('refuses quote settings that make no sense, and a project without a fit', async () => {
    const refused = await api.call('export-workbook', { projectId, quote: { discountBasisPoints: 20_000 } });
    expect(refused.ok).toBe(false);
    const created = await api.call('create-project', { name: 'Empty' });
    if (!created.ok) throw new Error(created.error.message);
    const empty = await api.call('export-workbook', {
      projectId: (created.value as { projectId: string }).projectId,
    });
    expect(empty).toMatchObject({ ok: false, error: { code: 'nothing-to-take-away' } });
  });
});
