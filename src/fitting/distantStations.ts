import type { PieceRules } from './pieceRules.ts';
import type { Station } from './stationEvents.ts';

/** What the distances between two stations come to wherever their hosts stand, if both are placed. */
export interface DistantPair {
  readonly bits: number;
  /** The least total displacement of both in half micrometres; infinite where they can't both be placed. */
  readonly leastDisplacement: number;
}

/** The least displacement of both with `left` to the left of `right`; infinite where their windows do not allow it. */
const inThatSequence = (left: Station, right: Station, clearUm: number): number =>
  left.fromMinUm + left.widthUm + clearUm > right.fromMaxUm
    ? Number.POSITIVE_INFINITY
    : left.weight *
      right.weight *
      Math.max(0, 2 * (left.widthUm + clearUm) - (right.twiceWantedFromUm - left.twiceWantedFromUm));

/**
 * Every pair of stations of a straight that keep a distance from each other. Of a station that either of a pair may
 * answer, what the kinder item asks for counts.
 */
export const distantPairs = (stations: readonly Station[], rules: PieceRules): readonly DistantPair[] => {
  const least = new Map<number, number>();
  for (const [rank, one] of stations.entries()) {
    for (const other of stations.slice(rank + 1)) {
      if (one.bit === other.bit) continue;
      const bits = one.bit | other.bit;
      const clearUm = rules.clearUm(one.item, other.item);
      const displacement =
        clearUm === 0
          ? 0
          : Math.min(inThatSequence(one, other, clearUm), inThatSequence(other, one, clearUm));
      least.set(bits, Math.min(least.get(bits) ?? Number.POSITIVE_INFINITY, displacement));
    }
  }
  return [...least]
    .filter(([, leastDisplacement]) => leastDisplacement > 0)
    .map(([bits, leastDisplacement]) => ({ bits, leastDisplacement }));
};

/** A displacement that no layout with all of the stations goes below: pairs that share no station, the largest first. */
export const leastTotalDisplacement = (pairs: readonly DistantPair[]): number => {
  let taken = 0;
  let total = 0;
  for (const { bits, leastDisplacement } of pairs.toSorted(
    (a, b) => b.leastDisplacement - a.leastDisplacement || a.bits - b.bits,
  )) {
    if ((taken & bits) !== 0 || !Number.isFinite(leastDisplacement)) continue;
    taken |= bits;
    total += leastDisplacement;
  }
  return total;
};
