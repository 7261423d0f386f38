import { beforeAll, describe, expect, it } from 'vitest';
import type { PaperSystem } from '../../../src/issue/settingOut/papers.ts';
import { type SettingOutPdf, settingOutPdf } from '../../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { demoBackBar, demoFrontBar } from '../elevation/elevationScenes.ts';
import { blankPlan, issueFont } from './blankPlan.ts';
import { letterOverlaps } from './letterOverlaps.ts';
import { type FittedProject, projectOf, projectSheetId, randomProject } from './randomProject.ts';

let plan: Uint8Array;
let font: Uint8Array;
beforeAll(async () => {
  plan = await blankPlan();
  font = await issueFont();
});

const issue = async (
  { document, alternatives }: FittedProject,
  system: PaperSystem = 'iso',
): Promise<Extract<SettingOutPdf, { ok: true }>> => {
  const answer = await settingOutPdf(
    { bytes: plan },
    {
      document,
      sheet: document.sheets[projectSheetId]!,
      scale: scaleOfSheet(document, projectSheetId)!,
      range: demoRange,
      alternatives,
    },
    { font, at: '2027-03-15T08:00:00.000Z', system },
  );
  if (!answer.ok) throw new Error(answer.message);
  return answer;
};

describe('the setting-out drawing', () => {
  it('gives the same bytes for the same input', async () => {
    const project = projectOf([demoFrontBar, demoBackBar], 60);
    const [one, other] = [await issue(project), await issue(project)];
    expect(Buffer.from(one.bytes).equals(Buffer.from(other.bytes))).toBe(true);
  });

  it('lays no text over another on random projects, on ISO and on US sheets', async () => {
    const count = campaignSize({ sample: 10, full: 50 });
    const troubles: string[] = [];
    let texts = 0;
    for (let seed = 1; seed <= count; seed += 1)
      for (const system of ['iso', 'us'] as const) {
        const { letters } = await issue(randomProject(seed), system);
        for (const [sheet, own] of letters.entries()) {
          texts += own.length;
          for (const overlap of letterOverlaps(own))
            troubles.push(`seed ${seed} ${system} sheet ${sheet + 1}: ${overlap}`);
        }
      }
    process.stdout.write(`${count} projects, ${texts} texts, ${troubles.length} overlaps\n`);
    expect(troubles).toEqual([]);
    expect(texts).toBeGreaterThan(count * 100);
  }, 120_000);
});
