import { describe, expect, it } from 'vitest';
import { installationOrder } from '../../src/quote/installationOrder.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fitOf, runAt } from '../services/fittedRun.ts';

const run = runAt(
  [
    [0, 0],
    [300, 0],
    [300, 200],
  ],
  'left',
);
const alternative = fitOf(
  [
    { straight: 0, item: 'beer-station-600', fromMm: 1_200, toMm: 1_800 },
    { straight: 0, item: 'hand-basin-11l', fromMm: 100, toMm: 480, host: 2 },
    { straight: 0, item: 'module-1200', fromMm: 0, toMm: 1_200 },
    { straight: 0, item: 'module-900', fromMm: 1_800, toMm: 2_700 },
    { straight: 1, item: 'module-2400', fromMm: 700, toMm: 3_100 },
    { straight: 0, item: 'till-stand-350', fromMm: 1_900, toMm: 2_250, host: 3 },
  ],
  {
    corners: [{ treatment: 'corner-unit', item: 'corner-700' }],
    leftovers: [
      { straight: 0, fromMm: 2_700, toMm: 2_800, widthMm: 100, verdict: 'filler', confirmed: true },
    ],
  },
);
const steps = installationOrder(run, 1, alternative, demoRange);
const numberOf = (mark: string) => steps.find((step) => step.mark === mark)!.number;

describe('the installation order', () => {
  it('sets corners and what stands before what hangs, and that before what is let in (common practice, no source)', () => {
    const kinds = steps.map(({ kind }) => kind).filter((kind) => kind !== 'hold');
    expect(kinds).toEqual([
      'corner',
      'standing',
      'standing',
      'standing',
      'leftover',
      'carried',
      'drop-in',
      'countertop',
      'finish',
    ]);
  });

  it('never asks for a piece before what it needs', () => {
    for (const step of steps) for (const mark of step.after) expect(numberOf(mark)).toBeLessThan(step.number);
    const marks = pieceMarks(1, alternative);
    const carried = steps.find(({ kind }) => kind === 'carried')!;
    expect(carried.after).toEqual([marks.pieces[2], marks.pieces[3]]);
    expect(steps.find(({ kind }) => kind === 'drop-in')?.after).toEqual([marks.pieces[2]]);
  });

  it('has every piece, corner and leftover once, at its distances from the named datum', () => {
    const marks = pieceMarks(1, alternative);
    const placed = steps.filter(({ mark }) => mark !== '').map(({ mark }) => mark);
    expect(placed.toSorted()).toEqual([...marks.pieces, ...marks.corners, ...marks.leftovers].toSorted());
    const last = steps.find(({ mark }) => mark === marks.pieces[4])!;
    expect(last).toMatchObject({ fromMm: 700, toMm: 3_100 });
    expect(last.datum).toContain('corner 1');
  });

  it('gives people by HSE L23, paragraph 120: at 25 kg each, two may lift 33.3 kg and three 37.5 kg', () => {
    for (const { massKg, people, needsAid } of steps) {
      if (massKg === null) expect(people).toBeNull();
      else if (massKg <= 25) expect(people).toBe(1);
      else if (massKg <= (50 * 2) / 3) expect(people).toBe(2);
      else if (massKg <= 37.5) expect(people).toBe(3);
      else expect(needsAid).toBe(true);
    }
    expect(steps.some(({ massKg }) => massKg !== null)).toBe(true);
  });

  it('holds for the licensed trades where there are services, and not where there are none', () => {
    const holds = (list: typeof steps) => list.filter(({ kind }) => kind === 'hold').map(({ what }) => what);
    expect(holds(steps).join()).toContain('services rough-in');
    expect(steps[0]?.kind).toBe('hold');
    // The gap may close, and tops be let into, only once what hangs between them is in.
    const carried = steps.find(({ kind }) => kind === 'carried')!;
    const letIn = steps.find(({ kind }) => kind === 'drop-in')!;
    const behind = steps.find(({ what }) => what === 'Hold: services behind the frames')!;
    expect(carried.number).toBeLessThan(behind.number);
    expect(behind.number).toBeLessThan(letIn.number);
    const dry = fitOf([{ straight: 0, item: 'module-1200', fromMm: 0, toMm: 1_200 }]);
    expect(holds(installationOrder(run, 1, dry, demoRange)).join()).not.toContain('services');
  });
});
