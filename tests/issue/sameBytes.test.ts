import { beforeAll, describe, expect, it } from 'vitest';
import { paperPoint } from '../../src/geometry/point.ts';
import { drawPlanPdf } from '../../src/issue/planPdf/drawPlanPdf.ts';
import { settingOutPdf } from '../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { drawRandomPlan } from '../fixtures/drawPlan/drawRandomPlan.ts';
import { awkwardPlans, samplePlan } from '../host/reading/samplePlans.ts';
import { tracedDocument, tracedSheetId } from './planSamples.ts';
import { issueFont } from './settingOut/blankPlan.ts';

let font: Uint8Array;
beforeAll(async () => {
  font = await issueFont();
});

const document = tracedDocument({
  frontLine: [paperPoint(100, 100), paperPoint(300, 100)],
  depthMm: 600,
  ratio: 50,
  userUnit: 1,
});
const drawn = {
  document,
  sheet: document.sheets[tracedSheetId]!,
  scale: scaleOfSheet(document, tracedSheetId)!,
  range: demoRange,
  alternatives: new Map(),
};

/** Draws twice what goes out over a plan; what is refused is refused in the same words. Answers how many were drawn. */
const drawTwice = async (name: string, bytes: Uint8Array): Promise<number> => {
  let count = 0;
  const issued = { font, at: '2027-03-15T08:00:00.000Z' };
  for (const draw of [
    () => drawPlanPdf({ bytes }, drawn, issued),
    () => settingOutPdf({ bytes }, drawn, { ...issued, system: 'iso' as const }),
  ]) {
    const [one, other] = [await draw(), await draw()];
    if (one.ok && other.ok) {
      expect(Buffer.compare(one.bytes, other.bytes), name).toBe(0);
      count += 1;
    } else expect(one, name).toEqual(other);
  }
  return count;
};

describe('drawings over a plan come out the same a second time', () => {
  it('for plans rotated, offset, in large units and with nested forms', async () => {
    const count = campaignSize({ sample: 4, full: 100 });
    for (let seed = 1; seed <= count; seed += 1) {
      const { bytes } = await drawRandomPlan(seed);
      expect(await drawTwice(`seed ${seed}`, bytes)).toBe(2);
    }
  }, 120_000);

  it('for the plans of others, encrypted, layered or damaged', async () => {
    const plans = awkwardPlans();
    const step = Math.max(
      1,
      Math.floor(plans.length / campaignSize({ sample: 12, full: plans.length || 1 })),
    );
    let count = 0;
    for (const name of plans.filter((_, index) => index % step === 0))
      count += await drawTwice(name, samplePlan(name));
    if (plans.length > 0) expect(count).toBeGreaterThan(10);
  }, 240_000);
});
