import { projectWorkbook } from '../../src/issue/workbook/projectWorkbook.ts';
import { sheetCsv } from '../../src/issue/workbook/sheetCsv.ts';
import { writeXlsx } from '../../src/issue/workbook/writeXlsx.ts';
import { workbookInput, workbookRun } from '../issue/workbook/workbookOf.ts';

/**
 * The workbook of 30 m of bar in five runs, as data, as XLSX and as CSV, against that of one run of 6 m. Fits are made
 * beforehand. Prints times, sizes and ratios of one run; asserts nothing.
 */
const timed = <Result>(work: () => Result): { readonly result: Result; readonly ms: number } => {
  for (let round = 0; round < 20; round += 1) work();
  const rounds = 10;
  const start = performance.now();
  let result = work();
  for (let round = 1; round < rounds; round += 1) result = work();
  return { result, ms: (performance.now() - start) / rounds };
};

const measure = (label: string, runCount: number): number => {
  const runs = Array.from({ length: runCount }, (_, index) =>
    workbookRun(`Bar ${index + 1}`, index + 1, [6_000 + 40 * index]),
  );
  const input = workbookInput(runs, { tax: { name: 'VAT', basisPoints: 2_100 } });
  const pieces = runs.reduce((sum, { alternative }) => sum + alternative.pieces.length, 0);
  const data = timed(() => projectWorkbook(input));
  const bytes = timed(() => writeXlsx(data.result));
  const csv = timed(() => data.result.sheets.map(sheetCsv));
  console.log(
    `${label}: ${pieces} pieces, data ${data.ms.toFixed(1)} ms, XLSX ${bytes.ms.toFixed(1)} ms (${bytes.result.byteLength} bytes), CSV ${csv.ms.toFixed(1)} ms`,
  );
  return data.ms + bytes.ms + csv.ms;
};

const one = measure('one run of 6 m', 1);
const five = measure('five runs, 30 m', 5);
console.log(`five runs take ${(five / one).toFixed(1)} times as long as one`);
console.log(`memory: ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MiB resident`);
