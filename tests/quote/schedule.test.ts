import { describe, expect, it } from 'vitest';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { scheduleCsv } from '../../src/issue/scheduleCsv.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { scheduleOfRun } from '../../src/quote/schedule.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

const score = {
  unplaced: 0,
  madeToMeasure: 0,
  leftoverMm: 170,
  fillers: 2,
  pieces: 4,
  displacementMm: 0,
  price: 0,
} as const;

/** An L: a corner unit between the straights; a basin in the second module; a filler at the wall. */
const alternative: FitAlternative = {
  reason: 'least leftover',
  corners: [{ treatment: 'corner-unit', item: 'corner-700' }],
  pieces: [
    { straight: 1, item: 'module-1200', fromMm: 1900, toMm: 3100 },
    { straight: 0, item: 'module-1800', fromMm: 95, toMm: 1895 },
    { straight: 1, item: 'module-1200', fromMm: 700, toMm: 1900 },
    { straight: 0, item: 'hand-basin-11l', fromMm: 1090, toMm: 1470, host: 1, wanted: 'station-1' },
  ],
  leftovers: [{ straight: 0, fromMm: 10, toMm: 95, widthMm: 85, verdict: 'filler', confirmed: false }],
  score,
};

const run = { name: 'Front, "long" bar', number: 2 };

describe('marks', () => {
  it('count along the front whatever the order of the answer, and a basin takes its host’s mark', () => {
    expect(pieceMarks(2, alternative)).toEqual({
      pieces: ['2.03', '2.01', '2.02', '2.01a'],
      corners: ['2.C1'],
      leftovers: ['2.L1'],
      wedges: [],
    });
  });

  it('go on after z', () => {
    const hosted = Array.from({ length: 28 }, (_, index) => ({
      straight: 0,
      item: 'glass-rinser',
      fromMm: 10 + index,
      toMm: 11 + index,
      host: 0,
    }));
    const host = { straight: 0, item: 'module-2400', fromMm: 0, toMm: 2400 };
    const { pieces } = pieceMarks(1, { ...alternative, pieces: [host, ...hosted] });
    expect(pieces.slice(-2)).toEqual(['1.01aa', '1.01ab']);
    expect(new Set(pieces).size).toBe(29);
  });
});

describe('the schedule of a run', () => {
  const rows = scheduleOfRun(run, alternative, demoRange);

  it('lists pieces and leftovers straight by straight, the corner between them', () => {
    expect(rows.map(({ mark }) => mark)).toEqual(['2.L1', '2.01', '2.01a', '2.C1', '2.02', '2.03']);
  });

  it('prices from the range, and says what is not sure', () => {
    const module = demoRange.items.find(({ id }) => id === 'module-1800');
    const corner = demoRange.cornerUnits.find(({ id }) => id === 'corner-700');
    expect(rows[1]).toMatchObject({ price: module?.price, widthMm: 1800, note: '' });
    expect(rows[3]).toMatchObject({ kind: 'corner-unit', price: corner?.price, widthMm: 700 });
    expect(rows[2]?.note).toBe('In 2.01');
    expect(rows[0]?.note).toContain('measure on site');
  });

  it('adds up along each straight to what the fit covers', () => {
    const standing = rows.filter(
      (row) => row.straight === 2 && row.widthMm !== null && row.kind !== 'corner-unit',
    );
    expect(standing.reduce((sum, { widthMm }) => sum + (widthMm ?? 0), 0)).toBe(3100 - 700);
  });
});

describe('the schedule as CSV', () => {
  it('quotes as RFC 4180 has it: "aaa","b""bb","ccc" (section 2, rule 7), lines end in CR LF (rule 1)', () => {
    const text = scheduleCsv(scheduleOfRun(run, alternative, demoRange), 'EUR');
    const lines = text.split('\r\n');
    expect(lines.at(-1)).toBe('');
    expect(lines[0]?.startsWith('\uFEFFMark,Run,Straight,')).toBe(true);
    expect(lines[1]).toContain('2.L1,"Front, ""long"" bar",1,filler,');
  });

  it('never hands a spreadsheet a formula', () => {
    const text = scheduleCsv(
      scheduleOfRun({ name: '=HYPERLINK("x")', number: 1 }, alternative, demoRange),
      'EUR',
    );
    expect(text).not.toMatch(/(^|,)"?=/m);
    expect(text).toContain("'=HYPERLINK");
  });
});
