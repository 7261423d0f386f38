import { describe, expect, it } from 'vitest';
import { PlanError } from '../../../src/app/ports.ts';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { readAnswerSchema } from '../../../src/scale/readContract.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { drawRandomPlan } from '../../fixtures/drawPlan/drawRandomPlan.ts';
import { randomFrom } from '../../sheet/randomLinework.ts';
import { awkwardPlans, samplePlan } from './samplePlans.ts';

/** A mutation of PDF bytes: bits flipped, numbers swollen, pieces cut, doubled or swapped, the end torn off. */
const mutated = (source: Uint8Array, random: () => number): Uint8Array => {
  let bytes = source.slice();
  const at = (): number => Math.floor(random() * bytes.length);
  const rounds = 1 + Math.floor(random() * 12);
  for (let round = 0; round < rounds; round++) {
    const kind = Math.floor(random() * 7);
    const from = at();
    const length = 1 + Math.floor(random() * Math.min(400, bytes.length - from));
    if (kind === 0) bytes[from] = (bytes[from] ?? 0) ^ (1 << Math.floor(random() * 8));
    else if (kind === 1) bytes[from] = Math.floor(random() * 256);
    else if (kind === 2)
      bytes = Uint8Array.from([...bytes.subarray(0, from), ...bytes.subarray(from + length)]);
    else if (kind === 3) bytes.copyWithin(at(), from, from + length);
    else if (kind === 4) {
      // Digits become nines: lengths, offsets, object numbers and coordinates grow absurd.
      for (let i = from; i < from + length; i++) if (bytes[i]! >= 48 && bytes[i]! <= 57) bytes[i] = 57;
    } else if (kind === 5) bytes = bytes.slice(0, Math.max(20, from));
    else bytes.fill(32, from, from + Math.min(length, 12));
  }
  return bytes;
};

/**
 * `reading-timed-out` is among them: pdf.js itself loops without end on some mesh shadings whose bits per coordinate are
 * missing, and the deadline is what ends that. A crash of the thread or a lack of memory is not.
 */
const REFUSALS = [
  'password-needed',
  'password-wrong',
  'damaged',
  'page-damaged',
  'no-pages',
  'no-such-page',
  'not-a-pdf',
  'reading-timed-out',
];

describe('mutated PDFs', () => {
  it('open or are refused with a clear reason; none crashes the thread or outlasts its deadline', {
    timeout: 3_600_000,
  }, async () => {
    const count = campaignSize({ sample: 40, full: 5000 });
    const seed = 20260511;
    const random = randomFrom(seed);
    const sources: Uint8Array[] = [];
    for (const plan of [1, 2, 3, 4])
      sources.push((await drawRandomPlan(plan, { clutterSegments: 0, raster: plan === 4 })).bytes);
    for (const name of awkwardPlans().filter((_, i) => i % 6 === 0)) sources.push(samplePlan(name));
    const reader = createPlanReader({ deadlineMs: 20_000 });
    const counts = new Map<string, number>();
    for (let i = 0; i < count; i++) {
      const bytes = mutated(sources[i % sources.length]!, random);
      let outcome = 'read';
      try {
        readAnswerSchema.parse((await reader.readPage(bytes, 1, {})).answer);
      } catch (error) {
        if (!(error instanceof PlanError)) throw error;
        outcome = error.code;
        expect(REFUSALS, `seed ${seed}, case ${i}: ${error.message}`).toContain(error.code);
        expect(error.message.length).toBeGreaterThan(10);
      }
      counts.set(outcome, (counts.get(outcome) ?? 0) + 1);
    }
    await reader.close();
    process.stdout.write(`mutated PDFs, seed ${seed}: ${JSON.stringify(Object.fromEntries(counts))}\n`);
  });
});
