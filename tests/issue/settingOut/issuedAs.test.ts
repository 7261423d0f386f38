import { beforeAll, describe, expect, it } from 'vitest';
import { revisionLetter } from '../../../src/issue/changes/revisionLetter.ts';
import type { IssuedAs } from '../../../src/issue/issuedAs.ts';
import { settingOutPdf } from '../../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { blankPlan, issueFont } from './blankPlan.ts';
import { letterOverlaps } from './letterOverlaps.ts';
import { projectSheetId, randomProject } from './randomProject.ts';

let plan: Uint8Array;
let font: Uint8Array;
beforeAll(async () => {
  plan = await blankPlan();
  font = await issueFont();
});

/** The so-manieth issue, with so many changes, some of them in long words. */
const issuedAs = (number: number, changes: number): IssuedAs => ({
  revisions: Array.from({ length: number }, (_, index) => ({
    letter: revisionLetter(index + 1),
    number: index + 1,
    date: '2027-03-15',
    purpose: 'for construction',
  })),
  changes:
    number === 1
      ? null
      : {
          since: number - 1,
          rows: Array.from({ length: changes }, (_, index) => ({
            where: 'Long bar with a name that goes on and on',
            what: `1.${index} Module 1200, open with undershelf, and a beer station is gone on straight 2`,
            was: '12 345.6 mm ± 12 mm',
            is: index % 2 ? '12 400 mm ± 12 mm' : 'made to measure, measure on site',
          })),
        },
});

const lettersOf = async (seed: number, system: 'iso' | 'us', issue: IssuedAs) => {
  const { document, alternatives } = randomProject(seed);
  const sheet = document.sheets[projectSheetId]!;
  const scale = scaleOfSheet(document, projectSheetId)!;
  const answer = await settingOutPdf(
    { bytes: plan },
    { document, sheet, scale, range: demoRange, alternatives },
    { font, at: '2027-03-15T08:00:00.000Z', system, issue },
  );
  if (!answer.ok) throw new Error(answer.message);
  return answer.letters;
};

describe('a setting-out drawing that is issued', () => {
  it('says in the title block, beside it and in tables what it is, and what changed', async () => {
    const letters = await lettersOf(1, 'iso', issuedAs(3, 2));
    for (const own of letters) expect(own.some(({ text }) => text === 'C')).toBe(true);
    const words = letters.flat().map(({ text }) => text.replaceAll(/\s/g, ' '));
    expect(words).toContain('Changes since issue 2');
    expect(words.filter((text) => text.includes('is gone on straight 2'))).toHaveLength(2);
    expect(words.some((text) => text.startsWith('C: 2027-03-15, issue 3, for construction'))).toBe(true);
  });

  it('lays no text over another, however many changes and revisions there are', async () => {
    const count = campaignSize({ sample: 1, full: 25 });
    const troubles: string[] = [];
    for (let seed = 1; seed <= count; seed += 1)
      for (const system of ['iso', 'us'] as const)
        for (const [number, changes] of [
          [1, 0],
          [2, 0],
          [30, 120],
        ] as const) {
          const letters = await lettersOf(seed, system, issuedAs(number, changes));
          for (const [sheet, own] of letters.entries())
            for (const overlap of letterOverlaps(own))
              troubles.push(`seed ${seed} ${system} issue ${number} sheet ${sheet + 1}: ${overlap}`);
        }
    process.stdout.write(`${count} projects, ${troubles.length} overlaps\n`);
    expect(troubles).toEqual([]);
  }, 120_000);
});
