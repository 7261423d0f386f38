import type { HatchKind, Shape } from '../drawing/drawing.ts';
import { drawingPen } from '../drawing/drawingPen.ts';
import type { PartName } from '../fitOnPlan.ts';
import type { Stretched } from './developedRun.ts';
import { drawFoot } from './drawPiece.ts';
import { buildFrom, type ElevationBuild } from './elevationBuild.ts';
import { body, detail, fold, hidden, outline, panel, slab } from './pieceStyles.ts';

/** A lifted flap is drawn open this far at most, so that it does not tower over the counter, mm. */
const flapRiseMm = 330;

/** A leftover: hatched from the feet to the top, by verdict. */
export const drawLeftover = (
  { left, right }: Stretched,
  verdict: HatchKind,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(left, { part, tag: `leftover-${verdict}` });
  const width = right - left;
  pen.box(0, build.feet, width, build.top, { weight: 'medium', fill: 'face', hatch: verdict });
  return pen.shapes;
};

/** A length where nothing can stand: hatched from the floor past the serving shelf. */
export const drawBlocked = (
  { left, right }: Stretched,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(left, { part, tag: 'blocked' });
  pen.polygon(
    [
      [0, build.floorAt(left)],
      [right - left, build.floorAt(right)],
      [right - left, build.shelf],
      [0, build.shelf],
    ],
    { weight: 'medium', fill: 'face', hatch: 'blocked' },
  );
  return pen.shapes;
};

/** Whether an opening's name says that a flap closes it. */
export const isFlap = (name: string): boolean => /\bflap\b/i.test(name);

/** An opening is left clear; a flap shows where its leaf lies when closed, and the arc on which it lifts. */
export const drawOpening = (
  { left, right }: Stretched,
  name: string,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(left, { part, tag: 'opening' });
  const width = right - left;
  // Nothing is drawn in the gap itself, but the gap can be pointed at.
  if (!isFlap(name)) return pen.shapes;
  const thickness = build.top - build.underTop;
  const angle = Math.asin(Math.min(0.9, flapRiseMm / width));
  const middle = build.top - thickness / 2;
  pen.box(0, build.underTop, width, build.top, hidden, 'flap');
  const along = (distance: number, across: number): readonly [number, number] => [
    distance * Math.cos(angle) - across * Math.sin(angle),
    middle + distance * Math.sin(angle) + across * Math.cos(angle),
  ];
  pen.polygon(
    [
      along(0, -thickness / 2),
      along(width, -thickness / 2),
      along(width, thickness / 2),
      along(0, thickness / 2),
    ],
    hidden,
    'flap',
  );
  pen.arc([0, middle], width, 0, angle, hidden, 'flap-arc');
  const [tipX, tipY] = along(width, 0);
  const back = (turn: number): readonly [number, number] => [
    tipX + 46 * Math.sin(angle + turn),
    tipY - 46 * Math.cos(angle + turn),
  ];
  pen.polygon([[tipX, tipY], back(0.28), back(-0.28)], { fill: 'solid' }, 'flap-arc');
  pen.circle([0, middle], 11, body, 'flap');
  return pen.shapes;
};

/** A panel that closes an exposed end and carries the serving shelf. */
export const drawEndPanel = (
  { left, right }: Stretched,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(left, { tag: 'end-panel' });
  pen.box(0, build.floorAt((left + right) / 2) + 12, right - left, build.shelfUnder, panel);
  return pen.shapes;
};

/** Which side of a corner's length the fold is on. */
export interface CornerFace {
  readonly stretch: Stretched;
  readonly foldSide: 'left' | 'right';
}

/** One face of a corner unit: closed to the fold, on a foot at its outer end. */
export const drawCornerUnit = (
  { stretch, foldSide }: CornerFace,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(stretch.left, { part, tag: 'corner-unit' });
  const width = stretch.right - stretch.left;
  const { feet, underTop, top, tube } = build;
  const leg = foldSide === 'left' ? width - tube : 0;
  drawFoot(pen, leg + tube / 2, buildFrom(build, stretch.left));
  pen.box(leg, feet, leg + tube, underTop - tube, body, 'frame');
  const [from, to] = foldSide === 'left' ? [0, width - tube] : [tube, width];
  if (to > from) pen.box(from, feet, to, underTop - tube, panel);
  pen.box(0, underTop - tube, width, underTop, body, 'rail');
  pen.box(0, underTop, width, top, slab, 'top');
  return pen.shapes;
};

/** The side of the straight that runs through a corner, as it shows on the other straight's length: one frame, seen flat. */
export const drawCornerReturn = (
  { stretch }: CornerFace,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(stretch.left, { part, tag: 'corner-return' });
  const width = stretch.right - stretch.left;
  const { feet, underTop, top, tube, railBottom } = build;
  pen.box(0, feet, width, underTop, { fill: 'panel' });
  if (width > 3 * tube) {
    for (const leg of [0, width - tube]) {
      drawFoot(pen, leg + tube / 2, buildFrom(build, stretch.left));
      pen.box(leg, feet, leg + tube, underTop - tube, detail, 'frame');
    }
    pen.box(tube, railBottom - tube, width - tube, railBottom, detail, 'rail');
    pen.box(0, underTop - tube, width, underTop, detail, 'rail');
  }
  pen.box(0, underTop, width, top, slab, 'top');
  return pen.shapes;
};

/** One face of a wedge, which is made to measure. */
export const drawCornerWedge = (
  { stretch }: CornerFace,
  part: PartName,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(stretch.left, { part, tag: 'corner-wedge' });
  const width = stretch.right - stretch.left;
  pen.box(0, build.feet, width, build.top, { ...outline, fill: 'face', hatch: 'made-to-measure' });
  return pen.shapes;
};

/** The line on which the drawing is folded to stand round a corner. */
export const drawFold = (x: number, part: PartName, build: ElevationBuild): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(x, { part, tag: 'fold' });
  pen.line(
    [
      [0, -30],
      [0, build.shelf + 60],
    ],
    fold,
  );
  return pen.shapes;
};

/** Where the operator wanted a station: a small mark on the floor, solid where it found no place. */
export const drawWanted = (
  x: number,
  isPlaced: boolean,
  part: PartName | undefined,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(x, { part, tag: 'wanted' });
  pen.polygon(
    [
      [0, 92],
      [-36, 30],
      [36, 30],
    ],
    isPlaced ? { weight: 'medium', fill: 'ground' } : { weight: 'medium', fill: 'solid' },
  );
  return pen.shapes;
};
