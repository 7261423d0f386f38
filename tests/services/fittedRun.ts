import type { Run } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';

/** A run on paper as an L with a right angle, drawn at 1:50; its back on the side asked for. */
export const runAt = (
  points: readonly (readonly [x: number, y: number])[],
  backSide: Run['backSide'],
  more: Partial<Run> = {},
): Run => ({
  id: 'run-1' as Run['id'],
  sheetId: 'sheet-1' as Run['sheetId'],
  name: 'Front bar',
  frontLine: points.map(([x, y], index) => ({
    id: `vertex-${index}` as Run['frontLine'][number]['id'],
    at: { x, y } as PaperPoint,
    treatment: null,
  })),
  backSide,
  depthMm: 700,
  ends: [
    { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
    { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
  ],
  allowances: { jointMm: 0, scribeMm: 0, endPanelMm: 0, claddingMm: 0 },
  fillerMaxMm: 150,
  hostMarginMm: 30,
  maxWidthMm: null,
  order: 'best',
  pickUncertaintyPt: 0.1,
  ...more,
});

/** A fit of given pieces, nothing else. */
export const fitOf = (
  pieces: FitAlternative['pieces'],
  more: Partial<FitAlternative> = {},
): FitAlternative => ({
  reason: 'best',
  corners: [],
  pieces,
  leftovers: [],
  score: {
    unplaced: 0,
    madeToMeasure: 0,
    leftoverMm: 0,
    fillers: 0,
    pieces: pieces.filter(({ host }) => host === undefined).length,
    displacementMm: 0,
    price: 0,
  },
  ...more,
});
