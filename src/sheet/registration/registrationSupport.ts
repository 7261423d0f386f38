import type { Box } from '../../geometry/box.ts';
import type { DistinctLines } from './distinctLines.ts';
import { type LineMap, lineMap } from './lineMap.ts';
import { type LineSamples, lineSamples } from './lineSamples.ts';
import { inverseSimilarity, type Similarity, similarityAngleRad } from './similarity.ts';

/** Both sheets made ready for asking how well a similarity lays one on the other. */
export interface SupportMaps {
  readonly old: LineSamples;
  readonly new: LineSamples;
  readonly oldMap: LineMap;
  readonly newMap: LineMap;
  /** What is shown of either page. */
  readonly oldBox: Box;
  readonly newBox: Box;
}

/** How much of both sheets a similarity explains. */
export interface Support {
  /** Share of the old sheet's weight that would be shown on the new. */
  readonly oldShown: number;
  /** Of what is shown: the share that meets a line of the new sheet, and the other way round. 0 to 1. */
  readonly oldShare: number;
  readonly newShare: number;
  /** Share of all the weight that meets a line, a line among many parallels counting little, since it would be met by chance. */
  readonly oldTold: number;
  readonly newTold: number;
  /** Geometric mean of what is told, so that shrinking one sheet into a crowded corner of the other gains nothing. */
  readonly score: number;
  /** What each sample says, 0 to 1. */
  readonly oldWorth: Float32Array;
  readonly newWorth: Float32Array;
}

/** Squares as a share of the diagonal: 0.7 pt on an A1 sheet. */
const SQUARE_SHARE = 1 / 4000;

/** Makes samples and maps of both sheets. */
export const supportMaps = (
  old: DistinctLines,
  next: DistinctLines,
  oldBox: Box,
  newBox: Box,
): SupportMaps => ({
  oldBox,
  newBox,
  old: lineSamples(old),
  new: lineSamples(next),
  oldMap: lineMap(old, old.diagonal * SQUARE_SHARE),
  newMap: lineMap(next, next.diagonal * SQUARE_SHARE),
});

/**
 * The support of a similarity from the old to the new sheet.
 *
 * @param stride every how many samples are looked at: a few are enough for a first sorting
 */
export const supportOf = (maps: SupportMaps, transform: Similarity, stride = 1): Support => {
  const old = oneWay(maps.old, maps.newMap, maps.newBox, transform, stride);
  const next = oneWay(maps.new, maps.oldMap, maps.oldBox, inverseSimilarity(transform), stride);
  return {
    oldShown: old.shown,
    oldShare: old.share,
    newShare: next.share,
    oldTold: old.told,
    newTold: next.told,
    score: Math.sqrt(old.told * next.told),
    oldWorth: old.worth,
    newWorth: next.worth,
  };
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

const oneWay = (samples: LineSamples, map: LineMap, shownBox: Box, transform: Similarity, stride: number) => {
  const turn = similarityAngleRad(transform);
  const { a, b, x0, y0 } = transform;
  const worth = new Float32Array(samples.count);
  let [looked, shown, met, told] = [0, 0, 0, 0];
  for (let i = 0; i < samples.count; i += stride) {
    const [px, py, weight] = [samples.x[i]!, samples.y[i]!, samples.weight[i]!];
    const [x, y] = [a * px - b * py + x0, b * px + a * py + y0];
    looked += weight;
    if (x < shownBox.minX || x > shownBox.maxX || y < shownBox.minY || y > shownBox.maxY) continue;
    shown += weight;
    const each = map.worthAt(x, y, (samples.angle[i]! + turn + 2 * Math.PI) % Math.PI);
    if (each === 0) continue;
    worth[i] = each;
    met += weight;
    told += weight * each;
  }
  return {
    worth,
    shown: looked > 0 ? shown / looked : 0,
    share: shown > 0 ? met / shown : 0,
    told: looked > 0 ? told / looked : 0,
  };
};
