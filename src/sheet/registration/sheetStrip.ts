import { type Box, boxHeight, boxWidth } from '../../geometry/box.ts';
import type { LineSamples } from './lineSamples.ts';

/** Title blocks, revision tables, legends and notes stand in a strip of this share of the page along one edge. */
const STRIP = 0.22;

/** Or in a band along two neighbouring edges of this share. */
const BAND = 0.14;

/**
 * The most of a sheet's evidence that stands in a strip along one edge of the page, or in an angle along two: near 1 for
 * frame and title block, less for a plan.
 *
 * @param evidence what each sample says, 0 to 1
 */
export const stripShare = (samples: LineSamples, page: Box, evidence: (sample: number) => number): number => {
  const strips = new Float64Array(4);
  const angles = new Float64Array(4);
  let total = 0;
  for (let i = 0; i < samples.count; i++) {
    const weight = samples.weight[i]! * evidence(i);
    if (!(weight > 0)) continue;
    total += weight;
    const alongX = (samples.x[i]! - page.minX) / boxWidth(page);
    const alongY = (samples.y[i]! - page.minY) / boxHeight(page);
    const fromEdge = [alongX, alongY, 1 - alongX, 1 - alongY];
    for (let edge = 0; edge < 4; edge++) {
      if (fromEdge[edge]! < STRIP) strips[edge]! += weight;
      if (Math.min(fromEdge[edge]!, fromEdge[(edge + 1) % 4]!) < BAND) angles[edge]! += weight;
    }
  }
  return total > 0 ? Math.max(...strips, ...angles) / total : 0;
};
