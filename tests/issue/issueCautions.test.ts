import ExcelJS from 'exceljs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, it } from 'vitest';
import type { ApiInput, ApiMethod, ApiOutput } from '../../src/app/apiMethods.ts';
import { createApi } from '../../src/app/createApi.ts';
import { createPortsOver } from '../../src/host/nodePorts.ts';
import { issueCautions } from '../../src/issue/issueCautions.ts';
import { createMemoryStore } from '../app/memoryStore.ts';

/** Words alone: line breaks, spaces and how a format escapes them don't count. */
const bare = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, '').toLowerCase();

const wordsOfPdf = async (bytes: Uint8Array): Promise<readonly string[]> => {
  const task = getDocument({ data: bytes.slice(), verbosity: 0 });
  const pdf = await task.promise;
  const pages: string[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number);
    const { items } = await page.getTextContent();
    pages.push(items.map((item) => ('str' in item ? item.str : '')).join(' '));
  }
  await task.destroy();
  return pages;
};

const wordsOfWorkbook = async (bytes: Uint8Array): Promise<readonly string[]> => {
  const workbook = new ExcelJS.Workbook();
  await workbook.xlsx.load(new Uint8Array(bytes).buffer as never);
  return workbook.worksheets.map((sheet) => {
    const texts: string[] = [];
    sheet.eachRow((row) => row.eachCell((cell) => texts.push(String(cell.value))));
    return texts.join(' ');
  });
};

it('every document of an issue says the cautions, as other programs read it: a drawing on each sheet, a workbook too', async () => {
  const api = createApi(createPortsOver(createMemoryStore()));
  const done = async <Method extends ApiMethod>(method: Method, input: ApiInput<Method>) => {
    const answer = await api.call(method, input);
    if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
    return answer.value as ApiOutput<Method>;
  };
  const { projectId } = await done('open-demo', {});
  const { draftId, documents } = await done('begin-issue', { projectId, purpose: 'tender' });
  for (const document of documents) await done('draw-issue-document', { draftId, document });
  const { files } = await done('list-draft-files', { draftId });

  const checked: Record<string, number> = {};
  for (const { fileName } of files) {
    const { bytes } = await done('draft-file', { draftId, fileName });
    const ending = fileName.split('.').at(-1) ?? '';
    // An offer says them once, on its last page; the sheets of a drawing are handed out one by one.
    const parts =
      ending === 'pdf'
        ? await wordsOfPdf(bytes)
        : ending === 'xlsx'
          ? await wordsOfWorkbook(bytes)
          : ending === 'dxf'
            ? [new TextDecoder().decode(bytes)]
            : [];
    const asHandedOut = fileName.includes('offer') ? [parts.join(' ')] : parts;
    for (const [index, words] of asHandedOut.entries())
      for (const caution of issueCautions)
        expect(bare(words), `${fileName}, part ${index + 1}`).toContain(bare(caution));
    if (asHandedOut.length > 0) checked[ending] = (checked[ending] ?? 0) + asHandedOut.length;
  }
  // Setting-out drawing, plan and offer; one CAD file; the workbook's ten sheets or so.
  expect(checked['pdf']).toBeGreaterThanOrEqual(4);
  expect(checked['dxf']).toBe(1);
  expect(checked['xlsx']).toBeGreaterThanOrEqual(9);
}, 120_000);
