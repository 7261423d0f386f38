/** Normally distributed errors of hand picks from a fixed seed, so that a Monte-Carlo test gives the same every time. */
export interface SeededPicks {
  /** A normal deviate of mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

/** A 32-bit linear congruential generator (Numerical Recipes, 3rd ed., 7.1; from memory) and the Box-Muller transform. */
export function seededPicks(seed: number): SeededPicks {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return { normal: () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()) };
}

/** The standard deviation of a sample. */
export function standardDeviation(sample: readonly number[]): number {
  const mean = sample.reduce((sum, value) => sum + value, 0) / sample.length;
  return Math.sqrt(sample.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (sample.length - 1));
}
