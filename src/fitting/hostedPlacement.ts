/** A piece that stands on or in another, with the window of its start and its wish, in micrometres. */
interface HostedWish {
  readonly widthUm: number;
  readonly fromMinUm: number;
  readonly fromMaxUm: number;
  /** Twice the start that puts its centre where it is wanted (twice, because a centre may be half a micrometre off). */
  readonly twiceWantedFromUm: number;
  /** What its displacement counts for. */
  readonly weight: 0 | 1;
}

/** Where the hosted pieces go, in the sequence given, and their total displacement in half micrometres. */
export interface HostedPlacement {
  readonly fromUm: readonly number[];
  readonly displacement: number;
}

const permutations = (count: number): readonly (readonly number[])[] => {
  if (count === 1) return [[0]];
  const result: number[][] = [];
  for (const shorter of permutations(count - 1)) {
    for (let at = 0; at < count; at += 1) {
      result.push([...shorter.slice(0, at), count - 1, ...shorter.slice(at)]);
    }
  }
  return result;
};

/**
 * The best places for pieces in a fixed sequence: least sum of |from - wanted| with bounds and no overlap. Taking the
 * widths before each piece off its place turns "no overlap" into "not descending", an L1 isotonic regression, whose
 * optimum takes its values from the wishes and the bounds; a small table over those values is exact.
 */
const placeInSequence = (
  wishes: readonly HostedWish[],
  sequence: readonly number[],
  lowUm: number,
  highUm: number,
): HostedPlacement | undefined => {
  let offset = 0;
  const values = new Set<number>();
  const parts = sequence.map((index) => {
    const wish = wishes[index]!;
    const part = {
      index,
      offset,
      min: Math.max(wish.fromMinUm, lowUm) - offset,
      max: Math.min(wish.fromMaxUm, highUm - wish.widthUm) - offset,
      twice: wish.twiceWantedFromUm - 2 * offset,
      weight: wish.weight,
    };
    offset += wish.widthUm;
    values.add(part.min);
    values.add(part.max);
    values.add(Math.floor(part.twice / 2));
    values.add(Math.ceil(part.twice / 2));
    return part;
  });
  if (parts.some((part) => part.min > part.max)) return undefined;
  const grid = [...values].sort((a, b) => a - b);
  const choice: Int32Array[] = [];
  let best = new Array<number>(grid.length).fill(0);
  for (const part of parts) {
    const chosen = new Int32Array(grid.length).fill(-1);
    const next = new Array<number>(grid.length).fill(Number.POSITIVE_INFINITY);
    let at = -1;
    for (let to = 0; to < grid.length; to += 1) {
      if (at < 0 || best[to]! < best[at]!) at = to;
      const value = grid[to]!;
      if (value < part.min || value > part.max) continue;
      next[to] = best[at]! + part.weight * Math.abs(2 * value - part.twice);
      chosen[to] = at;
    }
    choice.push(chosen);
    best = next;
  }
  let at = 0;
  for (let to = 1; to < grid.length; to += 1) if (best[to]! < best[at]!) at = to;
  const displacement = best[at]!;
  if (!Number.isFinite(displacement)) return undefined;
  const fromUm = new Array<number>(wishes.length).fill(0);
  for (let rank = parts.length - 1; rank >= 0; rank -= 1) {
    const part = parts[rank]!;
    fromUm[part.index] = grid[at]! + part.offset;
    at = choice[rank]![at]!;
  }
  return { fromUm, displacement };
};

/**
 * The best places of hosted pieces between `lowUm` and `highUm` (the host's sides less its margins): inside their
 * windows, not overlapping, least total displacement. Nothing where they do not all fit.
 */
export const placeHosted = (
  wishes: readonly HostedWish[],
  lowUm: number,
  highUm: number,
): HostedPlacement | undefined => {
  let best: HostedPlacement | undefined;
  for (const sequence of permutations(wishes.length)) {
    const placement = placeInSequence(wishes, sequence, lowUm, highUm);
    if (placement && (best === undefined || placement.displacement < best.displacement)) best = placement;
  }
  return best;
};
