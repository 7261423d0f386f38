import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { projectWorkbook } from '../../../src/issue/workbook/projectWorkbook.ts';
import { writeXlsx } from '../../../src/issue/workbook/writeXlsx.ts';
import { quoteOf } from '../../../src/quote/quote.ts';
import { scheduleOfRun } from '../../../src/quote/schedule.ts';
import { servicePoints } from '../../../src/services/servicePoints.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { seededRandom } from '../../oracles/seededRandom.ts';
import { evaluateAll, readBack, tableOf } from './readBack.ts';
import { workbookInput, workbookRun } from './workbookOf.ts';

const runs = [workbookRun('Front bar', 1, [6_248.5, 3_130]), workbookRun('Back bar', 2, [4_335])];
const settings = {
  number: 'Q-7',
  discountBasisPoints: 750,
  freightMinor: 48_050,
  installationMinor: 160_000,
  tax: { name: 'VAT', basisPoints: 2_100 },
};
const input = workbookInput(runs, settings);
const bytes = writeXlsx(projectWorkbook(input));
const quote = quoteOf(runs, demoRange, input.settings);

describe('the workbook, read back by another library', () => {
  it('has every sheet, its headings frozen, repeated in print, with units', async () => {
    const workbook = await readBack(bytes);
    expect(workbook.worksheets.map(({ name }) => name)).toEqual([
      'Pieces',
      'Extras',
      'Leftovers',
      'Services',
      'Installation order',
      'Site measure',
      'Quote',
      'Options',
    ]);
    for (const sheet of workbook.worksheets) {
      const view = sheet.views[0]!;
      expect(view.state).toBe('frozen');
      const heading = view.state === 'frozen' ? view.ySplit! : 0;
      expect(sheet.getRow(heading).getCell(1).font.bold).toBe(true);
      expect(sheet.pageSetup).toMatchObject({
        paperSize: 9,
        orientation: 'landscape',
        fitToWidth: 1,
        printTitlesRow: `${heading}:${heading}`,
      });
      expect(sheet.headerFooter.oddFooter).toContain('Page &P of &N');
      // An ampersand in the project's name is doubled, else it would be a command.
      expect(sheet.headerFooter.oddFooter).toContain('Taproom && kitchen');
      const headings = (sheet.getRow(heading).values as unknown[]).slice(1).map(String);
      for (const word of headings)
        if (/^(From|To|Width|Height|Mass|Load|Price|Amount|Drawn|Leftover)\b/.test(word))
          expect(word).toMatch(/\(.+\)/);
      for (let column = 1; column <= headings.length; column += 1)
        expect(sheet.getColumn(column).width).toBeGreaterThan(5);
    }
  });

  it('has every piece with its position to the micrometre', async () => {
    const table = tableOf((await readBack(bytes)).getWorksheet('Pieces')!);
    const expected = runs
      .flatMap((run) => scheduleOfRun(run, run.alternative, demoRange))
      .filter(({ kind }) => !['closes', 'filler', 'made-to-measure'].includes(kind));
    expect(table.length).toBe(expected.length);
    for (const [index, row] of table.entries()) {
      const { mark, fromMm, toMm, price } = expected[index]!;
      expect(row['Mark']).toBe(mark);
      if (fromMm !== null) expect(row['From (mm)']).toBeCloseTo(fromMm, 3);
      if (toMm !== null) expect(row['To (mm)']).toBeCloseTo(toMm, 3);
      expect(row['Price (EUR)']).toBe(price);
    }
  });

  it('has every service point at its place', async () => {
    const table = tableOf((await readBack(bytes)).getWorksheet('Services')!);
    const expected = runs.flatMap(({ run, alternative, scale }) =>
      servicePoints(run, alternative, demoRange, scale),
    );
    expect(expected.length).toBeGreaterThan(5);
    expect(
      table.map((row) => [row['Along from datum (mm)'], row['From back line (mm)'], row['Height (mm)']]),
    ).toEqual(expected.map(({ alongMm, fromBackMm, heightMm }) => [alongMm, fromBackMm, heightMm]));
  });

  it('never holds a formula that came from a name', async () => {
    const hostile = workbookRun('=HYPERLINK("http://example.invalid")', 1, [3_000]);
    const workbook = await readBack(writeXlsx(projectWorkbook(workbookInput([hostile]))));
    const cell = workbook.getWorksheet('Pieces')!.getCell('B6');
    expect(cell.formula).toBeUndefined();
    expect(cell.value).toBe('=HYPERLINK("http://example.invalid")');
  });

  it('keeps letters that XML or the format would take for its own', async () => {
    for (const name of ['<b> & "x" \'y\'', '_x0041_ bar', 'Ünïcödé 酒吧 🍺', ' led and trailed ']) {
      const workbook = await readBack(
        writeXlsx(projectWorkbook(workbookInput([workbookRun(name, 1, [3_000])]))),
      );
      const read = String(workbook.getWorksheet('Pieces')!.getCell('B6').value);
      // The reader leaves an escaped underscore as it stands; ECMA-376 Part 1, ST_Xstring, reads it as an underscore.
      expect(read.replaceAll('_x005F_', '_')).toBe(name);
    }
    const control = await readBack(
      writeXlsx(projectWorkbook(workbookInput([workbookRun('a\u0001b\uD800c', 1, [3_000])]))),
    );
    expect(control.getWorksheet('Pieces')!.getCell('B6').value).toBe('a\uFFFDb\uFFFDc');
  });

  it('asks what is open: runs without a fit, and the job’s questions without an answer', async () => {
    const open = workbookInput([runs[1]!], settings, {
      notFitted: [{ name: 'Corner bar', why: 'Set the scale of the sheet first.' }],
    });
    const asked = { question: 'Is the column clad?', askedOn: '', answer: '', answeredOn: '' };
    const workbook = await readBack(
      writeXlsx(
        projectWorkbook({
          ...open,
          job: { ...open.job, questions: [asked, { ...asked, question: 'Answered?', answer: 'Yes' }] },
        }),
      ),
    );
    const texts: string[] = [];
    workbook.getWorksheet('Quote')!.eachRow((row) => texts.push(String(row.getCell(1).value)));
    expect(texts).toContain('Corner bar is not priced: Set the scale of the sheet first.');
    expect(texts).toContain('Is the column clad?');
    expect(texts).not.toContain('Answered?');
    expect(String(workbook.getWorksheet('Pieces')!.getCell('A4').value)).toContain(
      'Corner bar is not in this',
    );
  });

  it('keeps the footer within the 255 characters that the format allows, whatever the title', async () => {
    const long = workbookInput([runs[1]!]);
    const workbook = await readBack(
      writeXlsx(projectWorkbook({ ...long, job: { ...long.job, name: '&🍺'.repeat(100) } })),
    );
    for (const sheet of workbook.worksheets)
      expect(sheet.headerFooter.oddFooter!.length).toBeLessThanOrEqual(255);
  });

  it('gives identical bytes for identical inputs', () => {
    const again = workbookInput(
      [workbookRun('Front bar', 1, [6_248.5, 3_130]), workbookRun('Back bar', 2, [4_335])],
      settings,
    );
    expect(writeXlsx(projectWorkbook(again))).toEqual(bytes);
  });

  it('carries no macro, link or outside reference', () => {
    const parts = Object.keys(unzipSync(bytes));
    expect(parts.filter((name) => /vba|external|drawing|oleObject/i.test(name))).toEqual([]);
  });
});

describe('live formulas, evaluated by an independent engine', () => {
  it('come to our own totals, every one of them', async () => {
    const formulas = evaluateAll(await readBack(bytes));
    expect(formulas.length).toBeGreaterThan(2 * quote.lines.length);
    for (const { sheet, address, kept, evaluated } of formulas)
      expect(evaluated, `${sheet}!${address}`).toBeCloseTo(kept, 9);
    const total = formulas.findLast(({ sheet }) => sheet === 'Quote')!;
    expect(Math.round(total.evaluated * 100)).toBe(quote.totals.total.minor);
  });

  it('come to our own cents on random quotes, halves included', async () => {
    const random = seededRandom(9_2027);
    const cases = campaignSize({ sample: 15, full: 150 });
    for (let round = 0; round < cases; round += 1) {
      const run = workbookRun('Bar', 1, [random.integer(20_000, 80_000) / 10]);
      const range = {
        ...demoRange,
        fillers: {
          ...demoRange.fillers,
          price: random.integer(0, 9_999) / 100,
          pricePerMm: random.pick([0.005, 0.15, 0.375, 1.25]),
        },
        extras: { ...demoRange.extras, shelfPricePerMm: random.integer(1, 5_000) / 10_000 },
      };
      const own = workbookInput(
        [run],
        {
          discountBasisPoints: random.integer(0, 3_000),
          freightMinor: random.chance(0.5) ? random.integer(0, 99_999) : null,
          installationMinor: random.integer(0, 999_999),
          tax: random.chance(0.8)
            ? { name: 'VAT', basisPoints: random.pick([500, 825, 1_900, 2_100, 2_500]) }
            : null,
        },
        { range },
      );
      const expected = quoteOf([run], range, own.settings);
      const formulas = evaluateAll(await readBack(writeXlsx(projectWorkbook(own))));
      const ofQuote = formulas.filter(({ sheet }) => sheet === 'Quote');
      for (const { address, kept, evaluated } of ofQuote)
        expect(Math.round(evaluated * 1e6), `round ${round}, ${address}`).toBe(Math.round(kept * 1e6));
      expect(Math.round(ofQuote.at(-1)!.evaluated * 100)).toBe(expected.totals.total.minor);
    }
  });

  it('work a typed quantity through to the total as the quote would', async () => {
    const workbook = await readBack(bytes);
    const sheet = workbook.getWorksheet('Quote')!;
    const view = sheet.views[0]!;
    const first = (view.state === 'frozen' ? view.ySplit! : 0) + 1;
    const line = quote.lines[0]!;
    const more = evaluateAll(workbook, { [`Quote!E${first}`]: line.quantity + 3 });
    const goods = quote.totals.goods.minor + 3 * line.unitPrice!.minor;
    // Less 7.5 %, plus freight and installation, plus 21 %, in whole cents by hand.
    const net = goods - Math.round((goods * 75) / 1_000) + 48_050 + 160_000;
    const total = net + Math.round((net * 21) / 100);
    expect(Math.round(more.findLast((one) => one.sheet === 'Quote')!.evaluated * 100)).toBe(total);
  });

  it('rounds to whole yen where the currency has no smaller coin (ISO 4217)', async () => {
    const range = { ...demoRange, currency: 'JPY' };
    const own = workbookInput([runs[1]!], settings, { range });
    const formulas = evaluateAll(await readBack(writeXlsx(projectWorkbook(own))));
    for (const { sheet, kept, evaluated } of formulas)
      if (sheet === 'Quote') {
        expect(Number.isInteger(evaluated)).toBe(true);
        expect(evaluated).toBe(kept);
      }
  });
});
