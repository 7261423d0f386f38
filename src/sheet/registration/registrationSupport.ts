import type { DistinctLines } from './distinctLines.ts';
import { type LineMap, lineMap } from './lineMap.ts';
import { type LineSamples, lineSamples } from './lineSamples.ts';
import { applySimilarity, inverseSimilarity, type Similarity, similarityAngleRad } from './similarity.ts';

/** Both sheets made ready for asking how well a similarity lays one on the other. */
export interface SupportMaps {
  readonly old: LineSamples;
  readonly new: LineSamples;
  readonly oldMap: LineMap;
  readonly newMap: LineMap;
}

/** How much of both sheets a similarity explains. */
export interface Support {
  /** Share of the old sheet's weight that meets a line of the new, and the other way round: 0 to 1. */
  readonly oldShare: number;
  readonly newShare: number;
  /** Their geometric mean, so that shrinking one sheet into a crowded corner of the other gains nothing. */
  readonly score: number;
  /** What each sample says, 0 to 1. */
  readonly oldWorth: Float32Array;
  readonly newWorth: Float32Array;
}

/** Squares as a share of the diagonal: 1.2 pt on an A1 sheet. */
const SQUARE_SHARE = 1 / 2400;

/** Makes samples and maps of both sheets. */
export const supportMaps = (old: DistinctLines, next: DistinctLines): SupportMaps => ({
  old: lineSamples(old),
  new: lineSamples(next),
  oldMap: lineMap(old, old.diagonal * SQUARE_SHARE),
  newMap: lineMap(next, next.diagonal * SQUARE_SHARE),
});

/** The support of a similarity from the old to the new sheet. */
export const supportOf = (maps: SupportMaps, transform: Similarity): Support => {
  const oldWorth = worthOf(maps.old, maps.newMap, transform);
  const newWorth = worthOf(maps.new, maps.oldMap, inverseSimilarity(transform));
  const oldShare = weighed(maps.old, oldWorth) / maps.old.totalWeight;
  const newShare = weighed(maps.new, newWorth) / maps.new.totalWeight;
  return { oldShare, newShare, score: Math.sqrt(oldShare * newShare), oldWorth, newWorth };
};

/** What the first explains and the second does not, and the other way round: each a share of both sheets' weight. */
export const supportApart = (
  maps: SupportMaps,
  first: Support,
  second: Support,
): { readonly onlyFirst: number; readonly onlySecond: number } => {
  const only = (samples: LineSamples, mine: Float32Array, others: Float32Array): number => {
    let sum = 0;
    for (let i = 0; i < samples.count; i++) sum += samples.weight[i]! * Math.max(0, mine[i]! - others[i]!);
    return sum / samples.totalWeight / 2;
  };
  return {
    onlyFirst:
      only(maps.old, first.oldWorth, second.oldWorth) + only(maps.new, first.newWorth, second.newWorth),
    onlySecond:
      only(maps.old, second.oldWorth, first.oldWorth) + only(maps.new, second.newWorth, first.newWorth),
  };
};

const worthOf = (samples: LineSamples, map: LineMap, transform: Similarity): Float32Array => {
  const turn = similarityAngleRad(transform);
  const worth = new Float32Array(samples.count);
  for (let i = 0; i < samples.count; i++) {
    const { x, y } = applySimilarity(transform, { x: samples.x[i]!, y: samples.y[i]! });
    const angle = (samples.angle[i]! + turn + 2 * Math.PI) % Math.PI;
    worth[i] = map.worthAt(x, y, angle);
  }
  return worth;
};

const weighed = (samples: LineSamples, worth: Float32Array): number => {
  let sum = 0;
  for (let i = 0; i < samples.count; i++) sum += samples.weight[i]! * worth[i]!;
  return sum;
};
