import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openPdf } from '../../../src/host/reading/openPdf.ts';
import { readPage } from '../../../src/host/reading/readPage.ts';
import { EMPTY_LINEWORK } from '../../../src/sheet/linework.ts';
import { registerSheets } from '../../../src/sheet/registration/registerSheets.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { alteredSheet } from '../../fixtures/revisedPlan/alteredSheet.ts';
import { type RevisionOptions, revisedPlan } from '../../fixtures/revisedPlan/revisedPlan.ts';
import { judgeRegistered } from './judgeRegistered.ts';

const minutesMs = 60_000;
const codesOf = (answer: ReturnType<typeof registerSheets>) => answer.reasons.map(({ code }) => code);

/** Registers revised plans of many seeds and prints how it went. */
const campaign = (name: string, seeds: readonly number[], given: RevisionOptions = {}) => {
  const outcomes: Record<string, number> = {};
  const wrongThoughSure: number[] = [];
  const notRight: number[] = [];
  for (const seed of seeds) {
    const plan = revisedPlan(seed, given);
    const answer = registerSheets(plan.old, plan.next);
    const judged = judgeRegistered(answer, plan);
    const key = `${judged.outcome}, ${answer.certainty}`;
    outcomes[key] = (outcomes[key] ?? 0) + 1;
    if (judged.outcome !== 'right') notRight.push(seed);
    if (judged.isSure && judged.outcome !== 'right') wrongThoughSure.push(seed);
  }
  process.stdout.write(
    `${name}: ${seeds.length} pairs, ${JSON.stringify(outcomes)}; not right: seeds ${notRight.join(' ') || 'none'}\n`,
  );
  return { rightShare: 1 - notRight.length / seeds.length, wrongThoughSure };
};

const seedsFrom = (first: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => first + i);

describe('registering a revised sheet', () => {
  // The oracle is the generator, which draws both sheets and writes down how they lie to one another.
  it('is right within its uncertainty in 95 of 100, and never wrong where it is sure', {
    timeout: 30 * minutesMs,
  }, () => {
    const { rightShare, wrongThoughSure } = campaign(
      'revised plans',
      seedsFrom(14, campaignSize({ sample: 6, full: 200 })),
    );
    expect(wrongThoughSure, 'seeds sure and wrong').toEqual([]);
    expect(rightShare).toBeGreaterThanOrEqual(0.95);
  });

  it.each(['repeating', 'symmetric'] as const)(
    'is not sure and wrong on %s plans',
    { timeout: 30 * minutesMs },
    (pattern) => {
      const seeds = seedsFrom(1, campaignSize({ sample: 2, full: 60 }));
      expect(campaign(`${pattern} plans`, seeds, { pattern }).wrongThoughSure).toEqual([]);
    },
  );

  it('is not sure of another plan in the same frame', { timeout: 30 * minutesMs }, () => {
    const seeds = seedsFrom(24, campaignSize({ sample: 2, full: 60 }));
    expect(campaign('other plans', seeds, { isOtherPlan: true }).wrongThoughSure).toEqual([]);
  });

  it('follows the plan and not the title block that stayed', () => {
    for (const seed of [2, 44]) {
      const plan = revisedPlan(seed, { change: 'shifted', pattern: 'ordinary', alteredShare: 0.2 });
      const answer = registerSheets(plan.old, plan.next);
      expect(judgeRegistered(answer, plan)).toMatchObject({ outcome: 'right', isSure: true });
    }
  });

  it('does not tell which way a floor lies that half a turn brings onto itself', () => {
    const plan = revisedPlan(4, { change: 'plan-turned', pattern: 'symmetric', alteredShare: 0 });
    const answer = registerSheets(plan.old, plan.next);
    expect(answer.certainty).toBe('unsure');
    expect(codesOf(answer)).toContain('rival');
  });

  it('asks for two picks where there is nothing to go by', () => {
    const { old } = revisedPlan(1);
    const blank = { linework: EMPTY_LINEWORK, viewBox: old.viewBox };
    expect(registerSheets(old, blank)).toMatchObject({
      certainty: 'none',
      reasons: [{ code: 'no-linework' }],
    });
    expect(registerSheets(blank, old)).toMatchObject({
      certainty: 'none',
      reasons: [{ code: 'no-linework' }],
    });
  });

  it('gives the same answer each time, tells how far it is, and stops when asked', () => {
    const { old, next } = revisedPlan(16);
    const steps: string[] = [];
    const first = registerSheets(old, next, { onProgress: (done, of) => steps.push(`${done}/${of}`) });
    expect(registerSheets(old, next)).toEqual(first);
    expect(steps).toEqual(['1/6', '2/6', '3/6', '4/6', '5/6', '6/6']);
    let asked = 0;
    const stopped = registerSheets(old, next, { shouldStop: () => ++asked === 3 });
    expect(codesOf(stopped)).toEqual(['stopped']);
    expect(asked).toBe(3);
  });
});

const plans = [
  ['archicad-a4', 1],
  ['solvespace-strokes', 1],
  ['feet-letter', 1],
  ['counter-run-a2-cm', 1],
  ['autocad-a1-cm', 1],
  ['outlines-a1-rot270', 1],
] as const;

describe('registering real plans', () => {
  const folder = new URL('../../../../shared/plans/', import.meta.url);
  const chosen = plans.slice(0, campaignSize({ sample: 2, full: plans.length }));
  it.each(chosen)(
    'finds %s again, moved, turned, scaled and altered',
    { timeout: 10 * minutesMs },
    async (name, page) => {
      const file = new URL(`${name}.pdf`, folder);
      if (!existsSync(file)) {
        process.stdout.write(`registering ${name}: skipped, the plan is not here\n`);
        return;
      }
      const bytes = new Uint8Array(readFileSync(file));
      const document = await openPdf(bytes.slice(), undefined);
      const { reading, linework } = await readPage(document, { page, bytes, layers: {} });
      await document.loadingTask.destroy();
      const old = { linework, viewBox: reading.viewBox };
      for (const seed of seedsFrom(1, campaignSize({ sample: 1, full: 8 }))) {
        const altered = alteredSheet(seed, old);
        const answer = registerSheets(old, altered.next);
        const judged = judgeRegistered(answer, altered);
        process.stdout.write(
          `registering ${name}, seed ${seed}: ${judged.outcome}, ${answer.certainty}, ${codesOf(answer)}, error ${judged.errorPt.toFixed(3)} pt\n`,
        );
        expect(judged.outcome === 'right' || !judged.isSure, `seed ${seed}`).toBe(true);
        expect(judged.outcome).toBe('right');
      }
    },
  );
});
