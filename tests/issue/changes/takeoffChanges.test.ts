import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alignedItems } from '../../../src/issue/changes/alignedItems.ts';
import { changeRows } from '../../../src/issue/changes/changeRows.ts';
import { revisionLetter } from '../../../src/issue/changes/revisionLetter.ts';
import { takeoffChanges } from '../../../src/issue/changes/takeoffChanges.ts';
import type { PieceFacts, RunFacts, TakeoffFacts } from '../../../src/issue/changes/takeoffFacts.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';

const piece = (mark: string, item: string, fromMm: number, widthMm: number, wanted: string | null = null) =>
  ({ mark, item, name: item, straight: 0, fromMm, toMm: fromMm + widthMm, wanted }) satisfies PieceFacts;

const run: RunFacts = {
  id: 'run-1',
  name: 'Main bar',
  depthMm: 600,
  notFitted: null,
  straights: [{ vertexId: 'vertex-1', lengthMm: 4550, plusMinusMm: 12 }],
  corners: [],
  pieces: [
    piece('1.01', 'M1200', 0, 1200),
    piece('1.02', 'SINK', 1202, 900, 'station-1'),
    piece('1.03', 'M1200', 2104, 1200),
    piece('1.04', 'M1200', 3306, 1200),
  ],
  leftovers: [{ mark: '1.L1', straight: 0, fromMm: 4506, widthMm: 44, verdict: 'filler', confirmed: true }],
  leftOut: [],
};

const facts: TakeoffFacts = {
  sheets: [
    {
      id: 'sheet-1',
      name: 'Ground floor',
      planSha256: 'a'.repeat(64),
      planFileName: 'ground.pdf',
      pageNumber: 1,
      supersedes: null,
      revision: '',
    },
  ],
  range: { id: 'demo', version: 1, name: 'Demo' },
  runs: [run],
  total: { minor: 123_450, currency: 'EUR' },
  wayIn: { name: 'Yard', verdicts: [{ mark: '1.01', verdict: 'passes' }] },
};

const withRun = (changes: Partial<RunFacts>): TakeoffFacts => ({ ...facts, runs: [{ ...run, ...changes }] });
const wordsOf = (after: TakeoffFacts, before = facts): readonly string[] =>
  changeRows(takeoffChanges(before, after), 'mm').map(({ where, what, was, is }) =>
    `${where}: ${what}: ${was} > ${is}`.replaceAll(/[\u2009\u00a0\u202f]/g, ' '),
  );

describe('what changed since the last issue', () => {
  it('is nothing where nothing did', () => {
    expect(takeoffChanges(facts, JSON.parse(JSON.stringify(facts)))).toEqual([]);
  });

  it('names runs that came, went or were renamed', () => {
    expect(wordsOf({ ...facts, runs: [run, { ...run, id: 'run-2', name: 'Side bar' }] })).toEqual([
      'Side bar: Run is new: – > 4 550 mm',
    ]);
    expect(wordsOf({ ...facts, runs: [] })).toEqual(['Main bar: Run is gone: 4 550 mm > –']);
    expect(wordsOf(withRun({ name: 'Front bar' }))).toEqual([
      'Front bar: Run has another name: Main bar > Front bar',
    ]);
    expect(wordsOf(withRun({ notFitted: 'no scale' }))).toEqual([
      'Main bar: Run has no fit any more: 4 550 mm > without a fit',
    ]);
  });

  it('names a length only where it changed beyond both uncertainties, which add in squares', () => {
    // JCGM 100:2008, 5.1.2: variances of independent quantities add; 12 and 5 give 13 (the 5-12-13 triangle).
    const straight = (lengthMm: number) => ({
      straights: [{ vertexId: 'vertex-1', lengthMm, plusMinusMm: 5 }],
    });
    expect(wordsOf(withRun(straight(4562.9)))).toEqual([]);
    expect(wordsOf(withRun(straight(4563.1)))).toEqual([
      'Main bar: Straight 1: 4 550 mm ± 12 mm > 4 563.1 mm ± 5 mm',
    ]);
    expect(wordsOf(withRun({ depthMm: 650 }))).toEqual(['Main bar: Depth: 600 mm > 650 mm']);
  });

  it('names a module put in, and those that moved along by it as one', () => {
    const [first, sink, third, last] = run.pieces as [PieceFacts, PieceFacts, PieceFacts, PieceFacts];
    const pieces = [
      first,
      piece('1.02', 'M600', 1202, 600),
      { ...sink, mark: '1.03', fromMm: 1804, toMm: 2704 },
      { ...third, mark: '1.04', fromMm: 2706, toMm: 3906 },
      { ...last, mark: '1.05', fromMm: 3908, toMm: 5108 },
    ];
    expect(wordsOf(withRun({ pieces }))).toEqual([
      'Main bar: 1.02 M600 is new on straight 1: – > 1 202 mm',
      'Main bar: 2 modules moved alike, 1.04 to 1.05 on straight 1: 2 104 mm > 2 706 mm',
      'Main bar: Station 1.03 SINK moved on straight 1: 1 202 mm > 1 804 mm',
    ]);
    expect(wordsOf(withRun({ pieces: run.pieces.slice(0, 3) }))).toEqual([
      'Main bar: 1.04 M1200 is gone on straight 1: 3 306 mm > –',
    ]);
  });

  it('names a station that is another, gone, or finds no place', () => {
    const others = run.pieces.filter(({ wanted }) => wanted === null);
    expect(wordsOf(withRun({ pieces: [...others, piece('1.02', 'TAP', 1202, 900, 'station-1')] }))).toEqual([
      'Main bar: Station 1.02 is another: SINK > TAP',
    ]);
    expect(wordsOf(withRun({ pieces: others, leftOut: [{ wanted: 'station-1', name: 'SINK' }] }))).toEqual([
      'Main bar: Station 1.02 SINK is gone: 1 202 mm > –',
      'Main bar: SINK finds no place: placed > left out',
    ]);
  });

  it('names leftovers by width and by verdict', () => {
    const [leftover] = run.leftovers;
    expect(
      wordsOf(withRun({ leftovers: [{ ...leftover!, widthMm: 144, verdict: 'made-to-measure' }] })),
    ).toEqual([
      'Main bar: Leftover 1.L1, width: 44 mm > 144 mm',
      'Main bar: Leftover 1.L1, verdict: filler > made to measure',
    ]);
    expect(wordsOf(withRun({ leftovers: [] }))).toEqual([
      'Main bar: Leftover 1.L1, filler, is gone: 44 mm > –',
    ]);
    expect(wordsOf(withRun({ leftovers: [{ ...leftover!, confirmed: false }] }))[0]).toContain(
      'measure on site',
    );
  });

  it('names plan revisions, the stock range, verdicts on the way in and the price', () => {
    const sheet = facts.sheets[0]!;
    const revised = {
      ...sheet,
      id: 'sheet-2',
      planFileName: 'ground-b.pdf',
      supersedes: 'sheet-1',
      revision: 'B',
    };
    expect(wordsOf({ ...facts, sheets: [sheet, revised] })).toEqual([
      'Ground floor: Plan is revised: ground.pdf, page 1 > ground-b.pdf, page 1, revision B',
    ]);
    expect(wordsOf({ ...facts, sheets: [{ ...sheet, planSha256: 'b'.repeat(64) }] })[0]).toContain(
      'another file',
    );
    expect(wordsOf({ ...facts, range: { ...facts.range, version: 2 } })).toEqual([
      ': Stock range: Demo, version 1 > Demo, version 2',
    ]);
    expect(
      wordsOf({ ...facts, wayIn: { name: 'Yard', verdicts: [{ mark: '1.01', verdict: 'in-parts' }] } }),
    ).toEqual(['Yard: 1.01: passes > in parts']);
    expect(wordsOf({ ...facts, total: { minor: 123_451, currency: 'EUR' } })).toEqual([
      ': Total of the quote: EUR 1 234.50 > EUR 1 234.51',
    ]);
    expect(wordsOf({ ...facts, wayIn: null })).toEqual([': Way in: Yard > –']);
  });

  it('keeps to a straight though another is put in before it', () => {
    const straights = [{ vertexId: 'vertex-9', lengthMm: 900, plusMinusMm: 3 }, ...run.straights];
    const moved = {
      straights,
      pieces: run.pieces.map((one) => ({ ...one, straight: 1 })),
      leftovers: run.leftovers.map((one) => ({ ...one, straight: 1 })),
    };
    expect(wordsOf(withRun(moved))).toEqual(['Main bar: Straight 1 is new: – > 900 mm ± 3 mm']);
  });
});

describe('changes of random takeoffs', () => {
  const pieces = fc.array(fc.constantFrom('M600', 'M900', 'M1200'), { maxLength: 12 }).map((items) => {
    let at = 0;
    return items.map((item, index) => {
      const widthMm = Number(item.slice(1));
      const placed = piece(`1.${String(index + 1).padStart(2, '0')}`, item, at, widthMm);
      at += widthMm + 2;
      return placed;
    });
  });

  it('are none from a takeoff to itself, and as many one way as the other', () => {
    fc.assert(
      fc.property(pieces, pieces, (some, others) => {
        const [before, after] = [withRun({ pieces: some }), withRun({ pieces: others })];
        expect(takeoffChanges(before, before)).toEqual([]);
        const there = takeoffChanges(before, after);
        const back = takeoffChanges(after, before);
        const gone = (changes: typeof there) => changes.filter(({ is }) => is === null).length;
        const fresh = (changes: typeof there) => changes.filter(({ was }) => was === null).length;
        // What came one way went the other; nothing is both, and the counts account for every piece.
        expect([gone(there), fresh(there)]).toEqual([fresh(back), gone(back)]);
        expect(some.length - gone(there)).toBe(others.length - fresh(there));
        if (JSON.stringify(some) !== JSON.stringify(others)) expect(there.length).toBeGreaterThan(0);
      }),
      { seed: 20270315, numRuns: campaignSize({ sample: 200, full: 5000 }) },
    );
  });
});

describe('lining up two lists', () => {
  it('finds the longest common subsequence of the textbook', () => {
    // Cormen, Leiserson, Rivest, Stein, "Introduction to Algorithms", section on LCS: ABCBDAB and BDCABA have 4.
    const { both, onlyBefore, onlyAfter } = alignedItems([...'ABCBDAB'], [...'BDCABA'], (letter) => letter);
    expect(both).toHaveLength(4);
    expect(onlyBefore).toHaveLength(3);
    expect(onlyAfter).toHaveLength(2);
    for (const [one, other] of both) expect(one).toBe(other);
  });
});

describe('the letter of an issue', () => {
  it('leaves I and O out and goes on after Z', () => {
    expect([1, 8, 9, 13, 14, 24, 25, 48, 49].map(revisionLetter)).toEqual([
      'A',
      'H',
      'J',
      'N',
      'P',
      'Z',
      'AA',
      'AZ',
      'BA',
    ]);
  });
});
