/** A seeded source of random choices (mulberry32, public domain): the same seed gives the same cases everywhere. */
export interface SeededRandom {
  /** From 0 up to but not including 1. */
  readonly next: () => number;
  /** An integer from `low` to `high`, both included. */
  readonly integer: (low: number, high: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <Value>(values: readonly Value[]) => Value;
}

export const seededRandom = (seed: number): SeededRandom => {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    integer: (low, high) => low + Math.floor(next() * (high - low + 1)),
    chance: (probability) => next() < probability,
    pick: (values) => values[Math.floor(next() * values.length)]!,
  };
};
