import type { Linework } from '../../src/sheet/linework.ts';
import { createLineworkBuilder } from '../../src/sheet/lineworkBuilder.ts';

/** A linear congruential generator (Numerical Recipes' constants), in 0..1. */
export const randomFrom = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
};

/** Short lines scattered over an A1 sheet, as on a dense plan, with a few long ones and curves among them. */
export const randomLinework = (seed: number, lineCount: number, curveCount = 0): Linework => {
  const random = randomFrom(seed);
  const builder = createLineworkBuilder();
  for (let i = 0; i < lineCount; i++) {
    builder.startPath({ flags: 1, width: 0.5, stroke: i & 0xffffff, fill: 0, layer: i % 7 });
    const x = random() * 2384;
    const y = random() * 1684;
    const length = i % 100 === 0 ? 400 : 2 + 20 * random();
    const angle = i % 3 === 0 ? 0 : i % 3 === 1 ? Math.PI / 2 : random() * Math.PI;
    builder.addLine(x, y, x + length * Math.cos(angle), y + length * Math.sin(angle));
  }
  for (let i = 0; i < curveCount; i++) {
    builder.startPath({ flags: 2, width: 0, stroke: 0, fill: 0x112233, layer: 3 });
    const x = random() * 2384;
    const y = random() * 1684;
    builder.addCurve([x, y, x + 10 * random(), y + 10, x + 20, y - 10 * random(), x + 30, y]);
  }
  return builder.finish();
};
