import { PDFHexString } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { readVerdict } from '../../src/scale/readVerdict.ts';
import {
  type ChainSheet,
  drawChainSheet,
  type Lettering,
  plainLettering,
} from '../fixtures/drawPlan/drawChainSheet.ts';
import { randomFrom } from '../sheet/randomLinework.ts';
import { readFirstPage } from '../sheet/readPdfContent.ts';

const verdictOf = async (sheet: ChainSheet) => {
  const { reading, linework } = await readFirstPage(await drawChainSheet(sheet));
  return readVerdict(reading, linework);
};

const lengths = (seed: number, leastMm: number, mostMm: number, stepMm = 5) => {
  const random = randomFrom(seed);
  const some = (count: number): number[] =>
    Array.from(
      { length: count },
      () => stepMm * Math.round((leastMm + random() * (mostMm - leastMm)) / stepMm),
    );
  return { acrossMm: some(4), upMm: some(3) };
};

const whole = (mm: number): string => String(Math.round(mm));
const inCm = (mm: number): string => String(Math.round(mm / 10));

/** Glyphs of Liberation Sans and its like stand in ASCII order, the space as glyph 3. */
const glyphNumbers: Lettering = (text, x, y, isUpright, size) =>
  plainLettering(
    [...text].map((sign) => String.fromCharCode(sign.charCodeAt(0) - 29)).join(''),
    x,
    y,
    isUpright,
    size,
  );

/** A figure of a stroke font stands for nothing but lines; its words lie over it, unseen and a little off. */
const unseen: Lettering = (text, x, y, isUpright, size) =>
  `3 Tr ${plainLettering(text, x + 0.8, y - 0.6, isUpright, size * 0.95)} 0 Tr\n`;

const halfInches = (mm: number): { feet: number; inches: number; half: boolean } => {
  const halves = Math.round(mm / 12.7);
  return { feet: Math.floor(halves / 24), inches: Math.floor((halves % 24) / 2), half: halves % 2 === 1 };
};

/** `5'-6` with 1 over 2 beside it. */
const stackedHalves: Lettering = (text, x, y, isUpright, size) => {
  const [before = '', after] = text.split('|');
  if (after === undefined) return plainLettering(text, x, y, isUpright, size);
  const put = (sign: string, along: number, up: number, letter: number): string =>
    isUpright
      ? plainLettering(sign, x - up, y + along, true, letter)
      : plainLettering(sign, x + along, y + up, false, letter);
  // Advance widths of Helvetica: digits 556, apostrophe 191, hyphen 333 thousandths.
  const widthOf = (sign: string): number => (/\d/.test(sign) ? 556 : sign === '-' ? 333 : 191);
  const wide = ([...before].reduce((sum, sign) => sum + widthOf(sign), 0) * size) / 1000;
  return (
    put(before, 0, 0, size) +
    put('1', wide + 0.1 * size, 0.38 * size, 0.6 * size) +
    put('2', wide + 0.1 * size, -0.22 * size, 0.6 * size) +
    put('"', wide + 0.55 * size, 0, size)
  );
};

// The oracle of each case is its generator: the ratio at which it draws.
describe('the scale of sheets that were once misread', () => {
  it.each<[string, (seed: number) => ChainSheet]>([
    [
      'feet with decimals',
      (seed) => ({ ratio: 48, ...lengths(seed, 1500, 4000, 3.048), figure: (mm) => (mm / 304.8).toFixed(2) }),
    ],
    [
      'inches with decimals and no mark',
      (seed) => ({ ratio: 24, ...lengths(seed, 600, 1800, 2.54), figure: (mm) => (mm / 25.4).toFixed(1) }),
    ],
    ['a small thing in mm', (seed) => ({ ratio: 50, ...lengths(seed, 350, 700), figure: whole })],
    ['a small room in cm', (seed) => ({ ratio: 20, ...lengths(seed, 250, 420, 10), figure: inCm })],
    [
      'a small thing in mm, as its note says',
      (seed) => ({
        ratio: 20,
        ...lengths(seed, 300, 700),
        figure: whole,
        notes: ['ALL DIMENSIONS IN MILLIMETRES'],
      }),
    ],
    [
      'a small thing in mm at the scale of its note',
      (seed) => ({ ratio: 20, ...lengths(seed, 350, 700), figure: whole, notes: ['SCALE 1:20'] }),
    ],
    [
      'mm under a note that is false by ten',
      (seed) => ({ ratio: 50, ...lengths(seed, 1500, 4000), figure: whole, notes: ['SCALE 1:500'] }),
    ],
    [
      'lengths in two units',
      (seed) => ({
        ratio: 50,
        ...lengths(seed, 1500, 4000, 50.8),
        figure: (mm) => {
          const { feet, inches, half } = halfInches(mm);
          return `${mm.toFixed(0)} (${feet}'-${inches}${half ? ' 1/2' : ''}")`;
        },
      }),
    ],
    [
      'figures that say about',
      (seed) => ({ ratio: 50, ...lengths(seed, 1500, 4000), figure: (mm) => `~${whole(mm)}` }),
    ],
    [
      'stacked fractions',
      (seed) => ({
        ratio: 48,
        ...lengths(seed, 1500, 4000, 12.7),
        figure: (mm) => {
          const { feet, inches, half } = halfInches(mm);
          return `${feet}'-${inches}${half ? '|' : '"'}`;
        },
        lettering: stackedHalves,
      }),
    ],
    [
      'a font without a character map',
      (seed) => ({ ratio: 50, ...lengths(seed, 1500, 4000), figure: whole, lettering: glyphNumbers }),
    ],
    [
      'unseen words over outlines',
      (seed) => ({ ratio: 50, ...lengths(seed, 1500, 4000), figure: whole, lettering: unseen }),
    ],
  ])('is found in %s', async (_, sheetOf) => {
    for (let seed = 1; seed <= 4; seed++) {
      const sheet = sheetOf(seed);
      const { scale } = await verdictOf(sheet);
      expect(scale.ratio, `seed ${seed}`).not.toBeNull();
      expect(Math.abs(scale.ratio! / sheet.ratio - 1), `seed ${seed}: ${scale.ratio}`).toBeLessThan(0.002);
    }
  });

  it('is found by notes that lie over stroke lettering', async () => {
    const boxes: { text: string; rect: number[] }[] = [];
    const { scale } = await verdictOf({
      ratio: 50,
      ...lengths(3, 1500, 4000),
      figure: whole,
      lettering: (text, x, y, isUpright, size) => {
        const long = text.length * 0.556 * size;
        boxes.push({
          text,
          rect: isUpright ? [x - 0.75 * size, y, x, y + long] : [x, y, x + long, y + 0.75 * size],
        });
        return '';
      },
      adjust: () => ({
        Annots: boxes.map(({ text, rect }) => ({
          Type: 'Annot',
          Subtype: 'Square',
          Rect: rect,
          T: PDFHexString.fromText('SHX Text'),
          Contents: PDFHexString.fromText(text),
        })),
      }),
    });
    expect(scale.ratio).not.toBeNull();
    expect(Math.abs(scale.ratio! / 50 - 1)).toBeLessThan(0.002);
  });

  it('is not claimed by the numbers of a table', async () => {
    const rules = [0, 51, 105, 173, 252, 340, 439];
    for (const seed of [1, 2, 3, 20]) {
      const random = randomFrom(seed);
      let extra = '';
      for (let row = 0; row <= 40; row++) extra += `100 ${300 + row * 16} m 539 ${300 + row * 16} l S\n`;
      for (const x of rules) extra += `${100 + x} 300 m ${100 + x} 940 l S\n`;
      for (let row = 0; row < 40; row++)
        for (let column = 0; column < 6; column++)
          extra += plainLettering(
            String(Math.round(10 + random() * 89) * 50),
            100 + (rules[column]! + rules[column + 1]!) / 2 - 7,
            305 + row * 16,
            false,
            7,
          );
      const { scale } = await verdictOf({ ratio: 50, acrossMm: [], upMm: [], figure: () => '', extra });
      expect(scale.ratio, `seed ${seed}`).toBeNull();
    }
  });

  it('is as unsure as its figures where they are rounded to the next 50 mm', async () => {
    for (const seed of [19, 20, 21, 27, 33, 40, 41, 46]) {
      const { scale } = await verdictOf({
        ratio: 50,
        ...lengths(seed, 1500, 4000),
        figure: (mm) => String(Math.round(mm / 50) * 50),
      });
      if (scale.ratio === null) continue;
      expect(Math.abs(scale.ratio / 50 - 1), `seed ${seed}`).toBeLessThanOrEqual(
        Math.max(0.003, scale.relativeUncertainty!),
      );
    }
  });

  it('follows the note for the sheet in hand where one text gives a scale for each of two', async () => {
    const bare = { acrossMm: [], upMm: [], figure: () => '', notes: ['1:50@A1 / 1:100@A3'] };
    const { scale, sheet } = await verdictOf({ ratio: 50, ...bare });
    // 1684 x 1191 points are A2: from A1 by 1 / sqrt 2 (ISO 216), so 1:50 becomes 1:70.7.
    expect(sheet.name).toBe('A2');
    expect(scale.ratio).toBeCloseTo(50 * Math.SQRT2, 6);
  });
});
