import type { Shape } from '../drawing/drawing.ts';
import { drawingPen, type PenStyle } from '../drawing/drawingPen.ts';
import type { PartName } from '../fitOnPlan.ts';
import type { Stretched } from './developedRun.ts';
import type { ElevationBuild } from './elevationBuild.ts';
import { body, edge, heavy, hidden, slab } from './pieceStyles.ts';

/** How far a wall is drawn into its section, mm. */
export const wallDrawnMm = 150;
/** A wall is broken off this far above the serving shelf, mm. */
const wallAboveMm = 80;
/** The first bracket of a shelf stands this far from its end, mm. */
const bracketInsetMm = 90;

/** Joins stretches that touch, from left to right. */
export const joinedStretches = (stretches: readonly Stretched[]): readonly Stretched[] => {
  const joined: Stretched[] = [];
  for (const stretch of stretches.toSorted((one, other) => one.left - other.left)) {
    const last = joined.at(-1);
    if (last && stretch.left - last.right < 0.01)
      joined[joined.length - 1] = { left: last.left, right: Math.max(last.right, stretch.right) };
    else joined.push(stretch);
  }
  return joined;
};

/** What stands behind the top at the customer's side: upstand, brackets, serving shelf; joints of the upstand at `joints`. */
export const drawServingShelf = (
  stretches: readonly Stretched[],
  joints: readonly number[],
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(0);
  for (const { left, right } of stretches) {
    pen.box(left, build.top, right, build.upstand, body, 'upstand');
    for (const joint of joints)
      if (joint > left + 1 && joint < right - 1)
        pen.line(
          [
            [joint, build.top],
            [joint, build.upstand],
          ],
          edge,
          'joint',
        );
    const length = right - left;
    const inset = Math.min(bracketInsetMm, length * 0.25);
    const gaps = Math.max(1, Math.ceil((length - 2 * inset) / build.bracketSpacing));
    for (let index = 0; index <= gaps; index += 1) {
      const x = left + inset + ((length - 2 * inset) * index) / gaps;
      const half = build.bracket / 2;
      pen.box(x - half, build.upstand - 110, x + half, build.shelfUnder, body, 'bracket');
    }
    pen.box(left, build.shelfUnder, right, build.shelf, slab, 'serving-shelf');
    pen.line(
      [
        [left, build.shelf],
        [right, build.shelf],
      ],
      heavy,
      'serving-shelf',
    );
  }
  return pen.shapes;
};

/** The line of the working top, heavy over each unbroken length. */
export const drawTopLine = (
  stretches: readonly Stretched[],
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(0, { tag: 'top' });
  for (const { left, right } of stretches)
    pen.line(
      [
        [left, build.top],
        [right, build.top],
      ],
      heavy,
    );
  return pen.shapes;
};

/** A run that is traced but not fitted: the outline of what will stand there. */
export const drawBareOutline = (
  stretches: readonly Stretched[],
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(0, { tag: 'outline' });
  const light: PenStyle = { ...hidden, fill: 'face' };
  for (const { left, right } of stretches) {
    pen.box(left, build.top, right, build.upstand, light);
    pen.box(left, build.shelfUnder, right, build.shelf, light);
    pen.box(left, build.underTop, right, build.top, { weight: 'medium', fill: 'top' });
    for (const x of [left, right])
      pen.line(
        [
          [x, build.floorAt(x)],
          [x, build.underTop],
        ],
        hidden,
      );
  }
  return pen.shapes;
};

/** A wall cut where the run meets it, hatched as a section and broken off above. */
export const drawWall = (
  faceX: number,
  side: 'left' | 'right',
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(faceX, { tag: 'wall' });
  const sign = side === 'left' ? -1 : 1;
  const far = sign * wallDrawnMm;
  const top = build.shelf + wallAboveMm;
  const floor = build.floorAt(faceX);
  pen.polygon(
    [
      [0, floor],
      [0, top],
      [far, top],
      [far, build.floorAt(faceX + far)],
    ],
    { fill: 'ground', hatch: 'section' },
  );
  pen.line(
    [
      [0, floor],
      [0, top],
    ],
    heavy,
  );
  // A break line: the wall goes on.
  pen.line(
    [
      [-sign * 25, top],
      [far * 0.38, top],
      [far * 0.46, top + 34],
      [far * 0.56, top - 34],
      [far * 0.64, top],
      [far + sign * 25, top],
    ],
    edge,
  );
  return pen.shapes;
};

/** The finished floor, and dashed the one behind the bar where it lies higher or lower. */
export const drawFloor = (
  left: number,
  right: number,
  build: ElevationBuild,
  raisedBehindMm = 0,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(0, { tag: 'floor' });
  const level = (by: number, style: PenStyle, tag?: string) =>
    pen.line(
      [
        [left, build.floorAt(left) + by],
        [right, build.floorAt(right) + by],
      ],
      style,
      tag,
    );
  level(0, heavy);
  if (raisedBehindMm !== 0) level(raisedBehindMm, hidden, 'floor-behind');
  return pen.shapes;
};

/** Shelves beside the serving shelf, each an edge along the tops. */
export const drawOtherShelves = (
  stretches: readonly Stretched[],
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(0, { tag: 'shelf' });
  for (const { left, right } of stretches)
    for (const height of build.otherShelves)
      pen.box(left, height - build.shelfThickness, right, height, slab);
  return pen.shapes;
};

/** The run that an end meets, as far as it shows: the outline of its side, dashed. */
export const drawNeighbour = (
  endX: number,
  side: 'left' | 'right',
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(endX, { tag: 'neighbour' });
  const far = (side === 'left' ? -1 : 1) * wallDrawnMm;
  const floor = build.floorAt(endX);
  pen.line(
    [
      [far, build.top],
      [0, build.top],
      [0, floor],
    ],
    hidden,
  );
  pen.line(
    [
      [far, build.underTop],
      [0, build.underTop],
    ],
    hidden,
  );
  return pen.shapes;
};

/**
 * Where a section is cut, over the elevation: a thick stroke with an arrow in the direction of view (ISO 128-3, from
 * memory). A section has the customer's side at its left; seen from the working side, that is a view to the right.
 */
export const drawCutMark = (xMm: number, build: ElevationBuild): readonly Shape<PartName>[] => {
  const pen = drawingPen<PartName>(xMm, { tag: 'section-mark' });
  const foot = build.shelf + 24;
  const head = foot + 70;
  pen.line(
    [
      [0, foot],
      [0, head],
    ],
    heavy,
  );
  pen.line(
    [
      [0, head],
      [70, head],
    ],
    edge,
  );
  pen.polygon(
    [
      [105, head],
      [60, head - 14],
      [60, head + 14],
    ],
    { fill: 'solid' },
  );
  return pen.shapes;
};
