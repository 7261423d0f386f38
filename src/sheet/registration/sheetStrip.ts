import { type Box, boxHeight, boxWidth } from '../../geometry/box.ts';
import type { LineSamples } from './lineSamples.ts';

/** Title blocks, revision tables, legends and notes stand in a strip of this share of the page along one edge. */
const STRIP = 0.22;

/** Or in a band along two neighbouring edges of this share. */
const BAND = 0.14;

/** Where much of a sheet's evidence stands along the edges of the page. */
export interface SheetStrip {
  /** Share of the evidence that stands in it: near 1 for frame and title block, less for a plan. */
  readonly share: number;
  readonly holds: (sample: number) => boolean;
}

/**
 * The strip along one edge of the page, or the angle along two, that holds most of the evidence.
 *
 * @param evidence what each sample says, 0 to 1
 */
export const fullestStrip = (
  samples: LineSamples,
  page: Box,
  evidence: (sample: number) => number,
): SheetStrip => {
  const isIn = (strip: number, sample: number): boolean => {
    const alongX = (samples.x[sample]! - page.minX) / boxWidth(page);
    const alongY = (samples.y[sample]! - page.minY) / boxHeight(page);
    const fromEdge = (edge: number): number =>
      (edge % 2 === 0 ? alongX : alongY) * (edge < 2 ? 1 : -1) + (edge < 2 ? 0 : 1);
    const edge = strip % 4;
    return strip < 4 ? fromEdge(edge) < STRIP : Math.min(fromEdge(edge), fromEdge((edge + 1) % 4)) < BAND;
  };
  const sums = new Float64Array(8);
  let total = 0;
  for (let i = 0; i < samples.count; i++) {
    const weight = samples.weight[i]! * evidence(i);
    if (!(weight > 0)) continue;
    total += weight;
    for (let strip = 0; strip < 8; strip++) if (isIn(strip, i)) sums[strip]! += weight;
  }
  const fullest = sums.indexOf(Math.max(...sums));
  return { share: total > 0 ? sums[fullest]! / total : 0, holds: (sample) => isIn(fullest, sample) };
};
