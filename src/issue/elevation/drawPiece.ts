import { framesOf } from '../../stock/framesOf.ts';
import type { StockItem, StockRange } from '../../stock/stockSchema.ts';
import type { Shape } from '../drawing/drawing.ts';
import { drawingPen } from '../drawing/drawingPen.ts';
import type { PartName } from '../fitOnPlan.ts';
import { buildFrom, type ElevationBuild, legsOf } from './elevationBuild.ts';
import type { ElevationPen } from './features/drawFeature.ts';
import { drawFeatures } from './features/featureDrawings.ts';
import { body, detail, edge, panel, slab } from './pieceStyles.ts';

interface PlacedPiece {
  readonly part: PartName;
  readonly leftMm: number;
  readonly widthMm: number;
  /** Undefined where the range no longer has the item: a plain carcass is drawn. */
  readonly item: StockItem | undefined;
}

/** A disc foot under a leg: sleeve, threaded stem and the disc that reaches the floor. */
export const drawFoot = (pen: ElevationPen, centre: number, build: ElevationBuild): void => {
  const { feet, tube } = build;
  const floor = build.floorAt(centre);
  const length = feet - floor;
  const disc = Math.min(tube * 0.85, length * 0.4);
  pen.box(centre - 7, floor + 12, centre + 7, feet, detail, 'foot');
  pen.box(centre - tube * 0.4, floor + length * 0.78, centre + tube * 0.4, feet, body, 'foot');
  pen.polygon(
    [
      [centre - disc, floor],
      [centre + disc, floor],
      [centre + disc * 0.86, floor + 9],
      [centre + 10, floor + 16],
      [centre - 10, floor + 16],
      [centre - disc * 0.86, floor + 9],
    ],
    body,
    'foot',
  );
};

/** Frames, rails and feet of what stands on the floor, from the pen's origin. */
export const drawFrames = (
  pen: ElevationPen,
  widthMm: number,
  frames: number,
  build: ElevationBuild,
  hasLowerRail: boolean,
): void => {
  const { feet, underTop, tube, railBottom } = build;
  const legs = legsOf(widthMm, frames, tube);
  const first = legs[0] ?? 0;
  const last = legs.at(-1) ?? widthMm - tube;
  if (hasLowerRail && legs.length > 1)
    pen.box(first + tube, railBottom - tube, last, railBottom, body, 'rail');
  for (const leg of legs) {
    drawFoot(pen, leg + tube / 2, build);
    pen.box(leg, feet, leg + tube, underTop - tube, body, 'frame');
  }
  pen.box(0, underTop - tube, widthMm, underTop, body, 'rail');
};

const drawSlab = (pen: ElevationPen, widthMm: number, { underTop, top }: ElevationBuild): void => {
  pen.box(0, underTop, widthMm, top, slab, 'top');
  pen.line(
    [
      [0, underTop + 9],
      [widthMm, underTop + 9],
    ],
    edge,
    'top',
  );
};

/** What carries a hung piece: hooks over its neighbours' rails, and the spacer bar that sets them apart. */
const drawHanging = (pen: ElevationPen, widthMm: number, build: ElevationBuild): void => {
  const { underTop, tube, railBottom } = build;
  pen.box(0, railBottom - tube, widthMm, railBottom, detail, 'spacer-bar');
  pen.box(0, underTop - tube, widthMm, underTop, body, 'rail');
  pen.box(10, underTop - tube - 64, widthMm - 10, underTop - tube, panel, 'apron');
  for (const [from, to] of [
    [-tube, 22],
    [widthMm - 22, widthMm + tube],
  ] as const)
    pen.box(from, underTop - tube - 12, to, underTop - tube + 6, body, 'hook');
};

/**
 * A piece as it stands, seen from the working side: frames, feet, top, and each feature of the stock range. A drop-in or
 * countertop piece is its features alone: its host has frames and top.
 */
export const drawPiece = (
  { part, leftMm, widthMm, item }: PlacedPiece,
  range: StockRange,
  whole: ElevationBuild,
): readonly Shape<PartName>[] => {
  const build = buildFrom(whole, leftMm);
  const pen = drawingPen<PartName>(leftMm, { part });
  const support = item?.support ?? 'standing';
  const features = item?.elevation ?? [];
  const hasOwnTop = support === 'standing' || support === 'carried';
  // The back of the customer's front, seen through the open frame.
  if (hasOwnTop) pen.box(0, build.feet, widthMm, build.underTop, { fill: 'recess' }, 'back');
  if (support === 'standing') {
    const frames = framesOf(range, {
      widthMm,
      support,
      ...(item?.frames === undefined ? {} : { frames: item.frames }),
    });
    drawFrames(pen, widthMm, frames, build, true);
  } else if (support === 'carried') drawHanging(pen, widthMm, build);
  if (hasOwnTop && !features.some(({ feature }) => feature === 'blender-shelf'))
    drawSlab(pen, widthMm, build);
  const drawn = item
    ? drawFeatures(item, (feature) => drawingPen<PartName>(leftMm, { part, tag: feature }), build)
    : [];
  return [...pen.shapes, ...drawn];
};
