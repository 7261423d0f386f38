import { describe, expect, it } from 'vitest';
import { projectWorkbook } from '../../../src/issue/workbook/projectWorkbook.ts';
import { writeXlsx } from '../../../src/issue/workbook/writeXlsx.ts';
import { evaluateAll, readBack, tableOf } from './readBack.ts';
import { workbookInput, workbookRun } from './workbookOf.ts';

const runs = [workbookRun('Front bar', 1, [6_248.5, 3_130]), workbookRun('Back bar', 2, [4_335])];
const bookOn = (paper: 'a4' | 'letter') =>
  readBack(writeXlsx(projectWorkbook(workbookInput(runs, {}, { paper }))));

describe('a workbook on Letter paper', () => {
  it('prints every sheet on Letter, landscape and one page wide; on A4 otherwise (ECMA-376 paperSize 1 and 9, from memory)', async () => {
    for (const [paper, code] of [
      ['letter', 1],
      ['a4', 9],
    ] as const)
      for (const { name, pageSetup } of (await bookOn(paper)).worksheets) {
        expect(pageSetup.paperSize, name).toBe(code);
        expect(pageSetup.orientation, name).toBe('landscape');
        expect(pageSetup.fitToWidth, name).toBe(1);
        expect(pageSetup.fitToHeight, name).toBe(0);
      }
  });

  it('has lengths in inches, 25.4 mm each, shown to the sixteenth; the quote stays by the millimetre', async () => {
    const [metric, us] = [await bookOn('a4'), await bookOn('letter')];
    const widthsOf = (book: typeof us, heading: string) =>
      tableOf(book.getWorksheet('Pieces')!).map((row) => row[heading] as number | null);
    const inches = widthsOf(us, 'Width (in)');
    const millimetres = widthsOf(metric, 'Width (mm)');
    expect(inches.length).toBe(millimetres.length);
    for (const [index, mm] of millimetres.entries())
      if (typeof mm === 'number') expect(Math.abs((inches[index] ?? 0) * 25.4 - mm)).toBeLessThan(0.001);
    for (const sheet of us.worksheets) {
      const headings = (
        sheet.getRow(sheet.views[0]?.state === 'frozen' ? (sheet.views[0].ySplit ?? 1) : 1)
          .values as unknown[]
      ).map(String);
      expect(
        headings.some((heading) => /\(mm/.test(heading)),
        sheet.name,
      ).toBe(sheet.name === 'Quote');
    }
  });

  it('adds up: every formula comes to the value kept beside it, by an engine of its own', async () => {
    const formulas = evaluateAll(await bookOn('letter'));
    expect(formulas.length).toBeGreaterThan(20);
    for (const { sheet, address, kept, evaluated } of formulas)
      expect(Math.abs(kept - evaluated), `${sheet}!${address}`).toBeLessThan(0.0005);
  });
});
