import { describe, expect, it } from 'vitest';
import { PlanError } from '../../../src/app/ports.ts';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { readAnswerSchema } from '../../../src/scale/readContract.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { awkwardPlans, hasSamplePlans, samplePlan } from './samplePlans.ts';

const DEADLINE_MS = 30_000;

/** Codes by which a file may be refused; a crash or a time-out is none of them. */
const REFUSALS = ['password-needed', 'damaged', 'page-damaged', 'no-pages', 'not-a-pdf'];

describe.skipIf(!hasSamplePlans)('awkward PDFs', () => {
  it('open or are refused with their reason, in bounded time', async () => {
    const reader = createPlanReader({ deadlineMs: DEADLINE_MS });
    const names = awkwardPlans();
    // The thinned sample takes every fifth and the ones that are known to be damaged.
    const step = campaignSize({ sample: 5, full: 1 });
    const chosen = names.filter(
      (name, i) => i % step === 0 || /fuzzed|bad|empty|protected|poppler/.test(name),
    );
    const refused: string[] = [];
    for (const name of chosen) {
      try {
        const { answer } = await reader.readPage(samplePlan(name), 1, {});
        readAnswerSchema.parse(answer);
      } catch (error) {
        if (!(error instanceof PlanError)) throw error;
        expect(REFUSALS, `${name}: ${error.message}`).toContain(error.code);
        refused.push(`${name} ${error.code}`);
      }
    }
    process.stdout.write(`awkward PDFs: ${chosen.length} read, refused: ${refused.join(', ') || 'none'}\n`);
  }, 300_000);
});
