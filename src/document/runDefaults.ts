import type { StockRange } from '../stock/stockSchema.ts';
import type { Run } from './projectDocument.ts';

/** Everything of a run but who it is and where it runs. */
export type RunDefaults = Omit<Run, 'id' | 'sheetId' | 'name' | 'frontLine' | 'pickUncertaintyPt'>;

/** Depth of a bar counter until one is picked or typed, in mm (common practice, no source). */
const usualDepthMm = 700;

/** What a new run starts with: the stock range's own allowances and limits, and a wall at both ends. */
export const runDefaultsOf = (range: StockRange): RunDefaults => ({
  backSide: 'left',
  depthMm: usualDepthMm,
  ends: [
    { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
    { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
  ],
  allowances: range.allowances,
  fillerMaxMm: range.fillers.maxMm,
  hostMarginMm: range.hostMarginMm,
  maxWidthMm: null,
  order: 'best',
});
