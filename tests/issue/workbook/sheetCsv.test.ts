import { describe, expect, it } from 'vitest';
import { projectWorkbook } from '../../../src/issue/workbook/projectWorkbook.ts';
import { sheetCsv } from '../../../src/issue/workbook/sheetCsv.ts';
import { readCsvRows } from '../../../src/stock/csvRows.ts';
import { workbookInput, workbookRun } from './workbookOf.ts';

describe('a sheet as CSV', () => {
  const workbook = projectWorkbook(workbookInput([workbookRun('=1+1, "front"', 1, [5_000.4])]));

  it('has as many fields in every line as headings (RFC 4180, section 2, rule 4)', () => {
    for (const sheet of workbook.sheets) {
      const text = sheetCsv(sheet);
      expect(text.startsWith('\uFEFF')).toBe(true);
      expect(text.endsWith('\r\n')).toBe(true);
      const reading = readCsvRows(text, ',');
      if (!reading.ok) throw new Error(reading.message);
      expect(new Set(reading.rows.map(({ cells }) => cells.length))).toEqual(new Set([sheet.columns.length]));
    }
  });

  it('never hands a spreadsheet a formula', () => {
    for (const sheet of workbook.sheets) {
      const text = sheetCsv(sheet);
      expect(text).not.toMatch(/(^|,)"?=/m);
    }
    expect(sheetCsv(workbook.sheets[0]!)).toContain("'=1+1");
  });
});
