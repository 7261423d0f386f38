import { describe, expect, it } from 'vitest';
import { type PenFont, startSheet } from '../../../src/app/demo/planPen.ts';

const font: PenFont = {
  resource: 'F1',
  width: (text, size) => text.length * size * 0.5,
  encode: (text) => `(${text})`,
};
const sheet = (unitsPerMm = 1) => startSheet({ fonts: { regular: font, bold: font }, unitsPerMm });

describe('the plan pen', () => {
  it('draws a view at its ratio from its origin', () => {
    const { pen, content } = sheet();
    pen
      .inView([10, 20], 50)
      .layer('Walls', () => pen.inView([10, 20], 50).line([100, 0], [600, 50], { pen: 0.5 }));
    expect(content()).toContain('12 20 m\n22 21 l\nS');
  });

  it('keeps line widths on paper, whatever the ratio', () => {
    const { pen, content } = sheet(2);
    pen.layer('Walls', () => pen.inView([0, 0], 50).line([0, 0], [1, 1], { pen: 0.5 }));
    expect(content()).toContain('1 w');
  });

  it('draws a circle of four cubics that is nowhere more than 0.03 % off its radius', () => {
    // The handle 4/3 tan(angle/4) makes a quarter's greatest radial error 2.73e-4 (Goldapp 1991, from memory).
    const { pen, content } = sheet();
    pen.layer('Furniture', () => pen.circle([0, 0], 1_000, { pen: 0.1 }));
    const curves = [...content().matchAll(/(\S+ \S+) (\S+ \S+) (\S+ \S+) c/g)];
    expect(curves).toHaveLength(4);
    let start = [1_000, 0];
    let worst = 0;
    for (const curve of curves) {
      const [b, c, end] = curve.slice(1, 4).map((text) => text.split(' ').map(Number)) as [
        number[],
        number[],
        number[],
      ];
      for (let step = 0; step <= 20; step += 1) {
        const t = step / 20;
        const at = (axis: 0 | 1): number =>
          (1 - t) ** 3 * start[axis]! +
          3 * (1 - t) ** 2 * t * b[axis]! +
          3 * (1 - t) * t ** 2 * c[axis]! +
          t ** 3 * end[axis]!;
        worst = Math.max(worst, Math.abs(Math.hypot(at(0), at(1)) - 1_000));
      }
      start = end;
    }
    expect(worst).toBeLessThan(0.3);
    expect(worst).toBeGreaterThan(0.2);
  });

  it('refuses a layer inside a layer', () => {
    const { pen } = sheet();
    expect(() => pen.layer('Walls', () => pen.layer('Text', () => undefined))).toThrow(/inside layer/);
  });
});
