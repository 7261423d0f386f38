import type { StockRange, StockService } from '../../stock/stockSchema.ts';
import type { drawingPen } from '../drawing/drawingPen.ts';
import { drawFoot } from '../elevation/drawPiece.ts';
import type { ElevationBuild } from '../elevation/elevationBuild.ts';
import { body, detail, edge, fold, heavy, hidden } from '../elevation/pieceStyles.ts';
import type { PartName } from '../fitOnPlan.ts';

export type SectionPen = ReturnType<typeof drawingPen<PartName>>;

/** Places of a section, mm behind the front line and above the lowest floor under the run. */
export interface SectionFrame {
  readonly build: ElevationBuild;
  readonly range: StockRange;
  /** Front of the carcass: behind the cladding. */
  readonly carcass: number;
  readonly gapMm: number;
  readonly frameFront: number;
  readonly back: number;
  /** Under the run, and behind it where the bartender stands. */
  readonly floor: number;
  readonly floorBehind: number;
}

/** Thin parts are drawn this thick where the range states no thickness, mm (no source: it only has to be seen). */
export const thinPartMm = 15;
/** How far a bracket reaches down the upstand, mm (as the elevation draws it; no source). */
export const bracketDropMm = 110;
/** Equipment whose height is not given is drawn this far below the top, mm (as the elevation draws it). */
const belowTopMm = 20;
/** The floor is drawn this far past the run, mm. */
export const floorBeyondMm = 120;

const cut = { weight: 'thick', fill: 'ground', hatch: 'section' } as const;

/** The next frame behind the cut, with its feet; rails that run along the counter are cut. */
export const drawStanding = (pen: SectionPen, place: SectionFrame, hasUndershelf: boolean): void => {
  const { build, range, frameFront, back } = place;
  const { tube, underTop, railBottom } = build;
  const legs = Math.max(1, range.frame.legsPerFrame);
  const step = legs === 1 ? 0 : (back - frameFront - tube) / (legs - 1);
  for (let leg = 0; leg < legs; leg += 1) {
    const left = frameFront + leg * step;
    drawFoot(pen, left + tube / 2, build);
    pen.box(left, build.feet, left + tube, underTop - tube, body, 'frame');
  }
  pen.box(frameFront, underTop - tube, back, underTop, body, 'rail');
  pen.box(frameFront + tube, railBottom - tube, back - tube, railBottom, body, 'rail');
  for (const left of [frameFront, back - tube])
    pen.box(left, underTop - tube, left + tube, underTop, { weight: 'thick', fill: 'face' }, 'rail');
  if (hasUndershelf)
    pen.line(
      [
        [frameFront, railBottom],
        [back, railBottom],
      ],
      heavy,
      'undershelf',
    );
};

/** Top, upstand with its bracket, and serving shelf, all cut but the bracket. */
export const drawCounterTop = (pen: SectionPen, { build, range, carcass, back }: SectionFrame): void => {
  const { underTop, top, upstand, shelf, shelfUnder } = build;
  const { heights } = range;
  if (heights.upstandMm > 0) {
    pen.box(carcass, top, carcass + thinPartMm, upstand, { weight: 'thick', fill: 'solid' }, 'upstand');
    pen.box(
      carcass + thinPartMm,
      Math.max(top, upstand - bracketDropMm),
      carcass + thinPartMm + 35,
      shelfUnder,
      body,
      'bracket',
    );
  }
  pen.box(carcass, underTop, back, top, cut, 'top');
  if (hasServingShelf(range, build))
    pen.box(0, shelfUnder, heights.shelfDepthMm, shelf, cut, 'serving-shelf');
};

/** Whether the range has a serving shelf, and this place of the run shows it above the top. */
export const hasServingShelf = ({ heights }: StockRange, { shelf, top }: ElevationBuild): boolean =>
  heights.shelfDepthMm > 0 && heights.shelfThicknessMm > 0 && shelf > top;

/** Equipment by others under the top, with the swing of its door: an outline, dashed. Gives the height that is kept for it. */
export const drawEquipment = (
  pen: SectionPen,
  { build, frameFront, back, floor }: SectionFrame,
  { heightMm, doorSwingMm }: { readonly heightMm: number; readonly doorSwingMm: number },
): number => {
  const head = heightMm > 0 ? floor + heightMm : build.underTop - belowTopMm;
  pen.box(frameFront, floor, back, head, hidden, 'equipment');
  pen.line(
    [
      [frameFront, floor],
      [back, head],
    ],
    hidden,
    'equipment',
  );
  pen.line(
    [
      [frameFront, head],
      [back, floor],
    ],
    hidden,
    'equipment',
  );
  if (doorSwingMm > 0)
    pen.line(
      [
        [back, floor + 60],
        [back + doorSwingMm, floor + 60],
        [back + doorSwingMm, head - 20],
        [back, head - 20],
      ],
      hidden,
      'door',
    );
  return head;
};

/** A low section's top over its whole depth, and the neighbour's end seen beyond it. */
export const drawLow = (pen: SectionPen, place: SectionFrame, headMm: number): void => {
  const { build, range, carcass, back, frameFront } = place;
  const { heights } = range;
  pen.box(frameFront, build.feet, back, build.underTop, detail, 'neighbour');
  pen.box(carcass, build.underTop, back, build.top, detail, 'neighbour');
  if (heights.upstandMm > 0)
    pen.box(carcass, build.top, carcass + thinPartMm, build.upstand, detail, 'neighbour');
  if (hasServingShelf(range, build))
    pen.box(0, build.shelfUnder, heights.shelfDepthMm, build.shelf, detail, 'neighbour');
  pen.box(carcass, headMm - heights.topThicknessMm, back, headMm, cut, 'low-section');
};

/** The cladding where the run has one, else the plane of the front line. */
export const drawFront = (pen: SectionPen, { build, carcass, floor }: SectionFrame, headMm: number): void => {
  if (carcass > 0) pen.box(0, floor, carcass, headMm, cut, 'cladding');
  else
    pen.line(
      [
        [0, floor],
        [0, build.underTop],
      ],
      fold,
      'front-line',
    );
};

/** The axis on which services are set out, and the frame's side of their gap down to the floor. */
export const drawServicesGap = (
  pen: SectionPen,
  { build, carcass, gapMm, frameFront, floor }: SectionFrame,
): void => {
  if (gapMm <= 0) return;
  const axis = carcass + gapMm / 2;
  pen.line(
    [
      [axis, floor],
      [axis, build.underTop],
    ],
    fold,
    'services-axis',
  );
  pen.line(
    [
      [frameFront, floor],
      [frameFront, build.feet],
    ],
    hidden,
    'services-gap',
  );
};

/** Half a service's cross, mm. */
const crossMm = 18;

/** Where services of a bay come up: crosses on the axis of the services gap, at their heights above the floor. */
export const drawServices = (
  pen: SectionPen,
  { carcass, gapMm, floor }: SectionFrame,
  services: readonly StockService[],
): void => {
  const axis = carcass + gapMm / 2;
  for (const height of new Set(services.map(({ heightMm }) => floor + heightMm)))
    for (const [x, y] of [
      [crossMm, 0],
      [0, crossMm],
    ] as const)
      pen.line(
        [
          [axis - x, height - y],
          [axis + x, height + y],
        ],
        heavy,
        'service',
      );
};

/** The finished floor, with its step to the working floor behind the run where there is one. */
export const drawSectionFloor = (
  pen: SectionPen,
  { back, floor, floorBehind }: SectionFrame,
  rightMm: number,
): void => {
  pen.line(
    [
      [-floorBeyondMm, floor],
      [back, floor],
      ...(floorBehind === floor ? [] : ([[back, floorBehind]] as const)),
      [rightMm, floorBehind],
    ],
    heavy,
    'floor',
  );
  if (floorBehind !== floor)
    pen.line(
      [
        [back, Math.min(floor, floorBehind)],
        [rightMm, Math.min(floor, floorBehind)],
      ],
      edge,
      'floor',
    );
};
