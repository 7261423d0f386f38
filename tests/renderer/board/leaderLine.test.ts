import { describe, expect, it } from 'vitest';
import { crosses, leaderLine } from '../../../renderer/board/leaderLine.ts';

/** A level text, 60 px long and 16 px high, about (100, 50). */
const level = { x: 100, y: 50, cos: 1, sin: 0, halfLengthPx: 30, halfHeightPx: 8 };

describe('the line from a text to what it belongs to', () => {
  it('is not drawn for a text that moved by a line', () => {
    expect(leaderLine(level, { dxPx: 0, dyPx: -18 }, { x: 100, y: 80 })).toBeNull();
  });

  it('leaves straight down from the lower edge of a text above its place', () => {
    expect(leaderLine(level, { dxPx: 0, dyPx: -60 }, { x: 110, y: 120 })).toEqual({
      from: { x: 110, y: 58 },
      to: { x: 110, y: 120 },
    });
  });

  it('leaves from the corner that is nearest to a place beside the text', () => {
    expect(leaderLine(level, { dxPx: -90, dyPx: 0 }, { x: 190, y: 20 })?.from).toEqual({ x: 130, y: 42 });
  });

  it('leaves from the nearer edge of a text that reads from the right', () => {
    const upright = { ...level, cos: 0, sin: -1 };
    const { from } = leaderLine(upright, { dxPx: 60, dyPx: 0 }, { x: 20, y: 60 })!;
    expect(from.x).toBeCloseTo(92, 9);
    expect(from.y).toBeCloseTo(60, 9);
  });

  it('is not drawn to a place that the text covers', () => {
    expect(leaderLine(level, { dxPx: 60, dyPx: 0 }, { x: 90, y: 50 })).toBeNull();
  });

  it('goes through a text that lies between, and not through one beside it or behind its end', () => {
    const upTo = (x: number, y: number) => ({ from: { x: 100, y: 0 }, to: { x, y } });
    expect(crosses(upTo(100, 120), level)).toBe(true);
    expect(crosses(upTo(100, 40), level)).toBe(false);
    expect(crosses(upTo(200, 60), level)).toBe(false);
    const turned = { ...level, cos: Math.SQRT1_2, sin: Math.SQRT1_2 };
    // The corner of the level text's room, which the turned one leaves free.
    expect(crosses({ from: { x: 120, y: 0 }, to: { x: 128, y: 45 } }, level)).toBe(true);
    expect(crosses({ from: { x: 120, y: 0 }, to: { x: 128, y: 45 } }, turned)).toBe(false);
  });
});
