import type { RunZone } from '../../measure/zonesOfRun.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { Shape } from '../drawing/drawing.ts';
import { drawingPen } from '../drawing/drawingPen.ts';
import type { PartName } from '../fitOnPlan.ts';
import type { Stretched } from './developedRun.ts';
import type { ElevationBuild } from './elevationBuild.ts';
import { edge, heavy, hidden, slab } from './pieceStyles.ts';

/** Equipment whose height is not given is drawn this far below the top, mm. */
const belowTopMm = 20;

/**
 * A bay: the top runs on over it, nothing of the bar stands under it; the equipment, by others, as a dashed outline
 * within what is kept free.
 *
 * @param whole what is kept free; @param own the equipment's length within it.
 */
export const drawBay = (
  whole: Stretched,
  own: Stretched,
  { clearance }: RunZone,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(whole.left, { part, tag: 'bay' });
  const { underTop, top } = build;
  const width = whole.right - whole.left;
  pen.box(0, underTop, width, top, slab, 'top');
  const [left, right] = [own.left - whole.left, own.right - whole.left];
  const floor = build.floorAt((own.left + own.right) / 2);
  const heightMm = clearance?.heightMm ?? 0;
  const head = heightMm > 0 ? floor + heightMm : underTop - belowTopMm;
  pen.box(left, floor, right, head, hidden, 'equipment');
  for (const [from, to] of [
    [left, right],
    [right, left],
  ] as const)
    pen.line(
      [
        [from, floor],
        [to, head],
      ],
      hidden,
      'equipment',
    );
  return pen.shapes;
};

/** A low section: its own top at its own height, clear underneath. */
export const drawLowSection = (
  { left, right }: Stretched,
  zone: RunZone,
  range: StockRange,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(left, { part, tag: 'low-section' });
  const { lowSectionTopMm, topThicknessMm } = range.heights;
  const width = right - left;
  const head = build.floorAt((left + right) / 2) + (zone.topHeightMm ?? lowSectionTopMm);
  pen.box(0, head - topThicknessMm, width, head, slab, 'top');
  pen.line(
    [
      [0, head],
      [width, head],
    ],
    heavy,
  );
  // The neighbours' ends, up to the main top.
  for (const x of [0, width])
    pen.line(
      [
        [x, head],
        [x, build.top],
      ],
      edge,
    );
  return pen.shapes;
};

/** A column that takes only the back, with pieces standing in front of it: hidden, so dashed. */
export const drawPassedColumn = (
  { left, right }: Stretched,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(left, { part, tag: 'column' });
  for (const x of [0, right - left])
    pen.line(
      [
        [x, build.floorAt(left + x)],
        [x, build.shelf],
      ],
      hidden,
    );
  return pen.shapes;
};

/** What of a bay is the equipment's own, and no more than what is left of it here. */
export const ownSpanOf = (
  zone: RunZone,
  kept: { readonly fromMm: number; readonly toMm: number },
): { readonly straight: number; readonly fromMm: number; readonly toMm: number } => ({
  straight: zone.straight,
  fromMm: Math.max(kept.fromMm, zone.fromMm),
  toMm: Math.min(kept.toMm, zone.toMm),
});
