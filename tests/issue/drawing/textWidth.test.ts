import { readFileSync } from 'node:fs';
import fontkit from '@cantoo/fontkit';
import { describe, expect, it } from 'vitest';
import { capitalHeightShare, textWidthMm } from '../../../src/issue/drawing/textWidth.ts';

const fontFile = new URL(
  '../../../node_modules/@fontsource-variable/archivo/files/archivo-latin-standard-normal.woff2',
  import.meta.url,
);

describe('the width of a text', () => {
  // The outside check: the font file itself, read by a font library.
  const font = fontkit.create(readFileSync(fontFile)) as unknown as {
    readonly unitsPerEm: number;
    readonly capHeight: number;
    layout(text: string): { readonly advanceWidth: number };
  };
  const samples = [
    '1.04a',
    '8700',
    `11'-9 3/4"`,
    'Glasswasher, by others',
    'made to measure 412 mm, measure on site',
    'Existing cast iron rainwater riser to remain, boxed in by others',
    'The quick brown fox jumps over the lazy dog: SPHINX OF BLACK QUARTZ, JUDGE MY VOW; (0123456789) ± + - / & % ?!',
  ];

  it('is never less than the font’s own, and at most 4 % more', () => {
    for (const sample of samples) {
      const realMm = ((font.layout(sample).advanceWidth / font.unitsPerEm) * 1.8) / capitalHeightShare;
      const ours = textWidthMm(sample, 1.8);
      expect(ours, sample).toBeGreaterThanOrEqual(realMm);
      expect(ours, sample).toBeLessThan(realMm * 1.04);
    }
  });

  it('knows the height of the font’s capitals', () => {
    expect(font.capHeight / font.unitsPerEm).toBeCloseTo(capitalHeightShare, 3);
  });

  it('takes letters that it does not know as wide', () => {
    expect(textWidthMm('台', 1.8)).toBeGreaterThan(textWidthMm('M', 1.8));
  });
});
