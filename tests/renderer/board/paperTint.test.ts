import { describe, expect, it } from 'vitest';
import { paperTint } from '../../../renderer/board/paperTint.ts';

/** Source-over compositing of one channel, W3C Compositing and Blending Level 1, section 5.1. */
const over = (veil: number, alpha: number, backdrop: number): number => veil * alpha + backdrop * (1 - alpha);

function parsed(tint: string | null) {
  const numbers = (tint ?? '').match(/[\d.]+/g)?.map(Number) ?? [];
  return { channels: numbers.slice(0, 3), alpha: numbers[3] ?? 0 };
}

describe('the tint of the paper', () => {
  it.each([
    [244, 242, 236],
    [226, 226, 226],
    [255, 250, 240],
  ])('makes white exactly the paper rgb(%i, %i, %i) and leaves black nearly black', (...paper) => {
    const { channels, alpha } = parsed(paperTint(`rgb(${paper.join(', ')})`));
    channels.forEach((channel, index) => {
      expect(over(channel, alpha, 255)).toBeCloseTo(paper[index]!, 0);
      expect(over(channel, alpha, 0)).toBeLessThanOrEqual(255 - Math.min(...paper) + 0.5);
    });
  });

  it('is none for white paper and for a colour that it does not know', () => {
    expect(paperTint('rgb(255, 255, 255)')).toBeNull();
    expect(paperTint('rgba(0, 0, 0, 0)')).toBeNull();
  });
});
