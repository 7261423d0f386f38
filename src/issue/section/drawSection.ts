import type { StockItem, StockRange } from '../../stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../units/formatLength.ts';
import type { Drawing } from '../drawing/drawing.ts';
import { drawingPen } from '../drawing/drawingPen.ts';
import { drawFoot } from '../elevation/drawPiece.ts';
import { elevationBuild } from '../elevation/elevationBuild.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import { body, edge, fold, heavy, hidden } from '../elevation/pieceStyles.ts';
import type { PartName } from '../fitOnPlan.ts';

/** A word beside a section, led to the place that it names; room mm. */
export interface SectionLabel {
  readonly at: { readonly x: number; readonly y: number };
  readonly text: string;
}

/** A section through a run: its drawing, and the words that stand beside it. */
export interface SectionDrawing {
  readonly drawing: Drawing<PartName>;
  readonly labels: readonly SectionLabel[];
  /** What is drawn as commonly built because neither range nor run state it. */
  readonly assumption: string;
}

export interface SectionInput {
  readonly title: string;
  readonly caption: string;
  readonly depthMm: number;
  readonly claddingMm: number;
  /** The standing piece that is cut. */
  readonly item: StockItem | undefined;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
}

/** Thin parts are drawn this thick where the range states no thickness, mm (no source: it only has to be seen). */
const thinPartMm = 15;
const floorBeyondMm = 120;
/** Marks in words what is drawn from common practice and not from data. */
const assumed = '*';

const cut = { weight: 'thick', fill: 'ground', hatch: 'section' } as const;

/**
 * A section across a standing module, the customer's side at the left: front line, cladding where the run has one,
 * services gap, frame, working top, upstand, serving shelf, feet. Heights, depths and thicknesses are the stock range's
 * and the run's; what neither states (where the serving shelf lies across, how thick the upstand is, how high the
 * undershelf) is drawn as commonly built and marked with a star (common practice, no source). Cut parts are hatched at
 * 45 degrees and outlined thick, what lies behind the cut is drawn in a medium line (ISO 128-3, from memory).
 */
export const drawSection = (input: SectionInput): SectionDrawing => {
  const { depthMm, claddingMm, range, item, unit } = input;
  const build = elevationBuild(range);
  const { heights, frame, extras } = range;
  const length = (mm: number) => drawnLength(mm, unit);
  const pen = drawingPen<PartName>(0);
  const labels: SectionLabel[] = [];
  const label = (x: number, y: number, text: string) => labels.push({ at: { x, y }, text });

  const carcass = claddingMm;
  const back = claddingMm + depthMm;
  const gapMm = Math.min(range.servicesGapMm, Math.max(0, depthMm - 3 * build.tube));
  const frameFront = carcass + gapMm;
  const { tube, underTop, top, railBottom, upstand, shelf, shelfUnder } = build;

  // Seen behind the cut: the next frame with its feet and rails.
  const legs = Math.max(1, frame.legsPerFrame);
  const step = legs === 1 ? 0 : (back - frameFront - tube) / (legs - 1);
  for (let leg = 0; leg < legs; leg += 1) {
    const left = frameFront + leg * step;
    drawFoot(pen, left + tube / 2, build);
    pen.box(left, build.feet, left + tube, underTop - tube, body, 'frame');
  }
  pen.box(frameFront, underTop - tube, back, underTop, body, 'rail');
  pen.box(frameFront + tube, railBottom - tube, back - tube, railBottom, body, 'rail');
  // Rails that run along the counter are cut.
  for (const left of [frameFront, back - tube])
    pen.box(left, underTop - tube, left + tube, underTop, { weight: 'thick', fill: 'face' }, 'rail');
  const hasShelf = (item?.elevation ?? []).some(({ feature }) => feature === 'shelf');
  if (hasShelf)
    pen.line(
      [
        [frameFront, railBottom],
        [back, railBottom],
      ],
      heavy,
      'undershelf',
    );

  if (claddingMm > 0) pen.box(0, 0, carcass, upstand, cut, 'cladding');
  if (heights.upstandMm > 0) {
    pen.box(carcass, top, carcass + thinPartMm, upstand, { weight: 'thick', fill: 'solid' }, 'upstand');
    pen.box(
      carcass + thinPartMm,
      Math.max(top, upstand - 110),
      carcass + thinPartMm + 35,
      shelfUnder,
      body,
      'bracket',
    );
  }
  pen.box(carcass, underTop, back, top, cut, 'top');
  const hasServingShelf = heights.shelfDepthMm > 0 && heights.shelfThicknessMm > 0 && shelf > top;
  if (hasServingShelf) pen.box(0, shelfUnder, heights.shelfDepthMm, shelf, cut, 'serving-shelf');

  // The axis on which services are set out, and the plane of the front line.
  const axis = carcass + gapMm / 2;
  if (gapMm > 0) {
    pen.line(
      [
        [axis, 0],
        [axis, underTop],
      ],
      fold,
      'services-axis',
    );
    pen.line(
      [
        [frameFront, 0],
        [frameFront, build.feet],
      ],
      hidden,
      'services-gap',
    );
  }
  if (claddingMm === 0)
    pen.line(
      [
        [0, 0],
        [0, underTop],
      ],
      fold,
      'front-line',
    );
  const right = Math.max(back, heights.shelfDepthMm);
  pen.line(
    [
      [-floorBeyondMm, 0],
      [right + floorBeyondMm, 0],
    ],
    heavy,
    'floor',
  );
  pen.line(
    [
      [-floorBeyondMm, 0],
      [right + floorBeyondMm, 0],
    ],
    edge,
    'floor',
  );

  const withUnit = (mm: number) => formatLength(mm, { unit });
  if (hasServingShelf)
    label(
      heights.shelfDepthMm * 0.8,
      shelf - heights.shelfThicknessMm / 2,
      `Serving shelf ${length(heights.shelfDepthMm)} deep, ${length(heights.shelfThicknessMm)} thick; flush with the front line${assumed}`,
    );
  if (heights.upstandMm > 0) {
    label(
      carcass + thinPartMm + 20,
      (Math.max(top, upstand - 110) + shelfUnder) / 2,
      `Bracket ${length(extras.shelfBracket.thicknessMm)} thick, at most ${length(extras.shelfBracket.spacingMm)} apart; shape${assumed}`,
    );
    label(
      carcass + thinPartMm / 2,
      top + 60,
      `Upstand ${length(heights.upstandMm)} high; place and thickness${assumed}`,
    );
  }
  label(
    back - 60,
    (underTop + top) / 2,
    `Working top ${length(heights.topThicknessMm)} thick, over the whole depth${assumed}`,
  );
  label(
    back - tube / 2,
    (underTop + railBottom) / 2,
    `Frame, tube ${length(tube)} x ${length(tube)}, ${legs} legs`,
  );
  if (hasShelf) label(back - 120, railBottom, `Undershelf; height${assumed}`);
  if (gapMm > 0)
    label(
      axis,
      railBottom - tube - 40,
      `Services gap ${withUnit(gapMm)} clear; services set out on its axis, ${length(axis)} behind the front line`,
    );
  label(frameFront + tube / 2, build.feet * 0.5, `Foot, adjustable ± ${length(heights.feetAdjustMm)}`);
  label(
    claddingMm > 0 ? carcass / 2 : 0,
    Math.min(build.feet * 0.25, 40),
    claddingMm > 0
      ? `Front cladding ${withUnit(claddingMm)}; height${assumed}`
      : `Front line, as traced: the customer’s face. Front panel and kick by others`,
  );

  const link = (fromMm: number, toMm: number, rank: number) => ({
    fromMm,
    toMm,
    text: length(toMm - fromMm),
    rank,
  });
  const drawing: Drawing<PartName> = {
    title: input.title,
    caption: input.caption,
    leftEnd: 'Customer’s side',
    rightEnd: 'Working side',
    leftMm: -floorBeyondMm,
    rightMm: right + floorBeyondMm,
    topMm: Math.max(shelf, upstand, top),
    shapes: pen.shapes,
    notes: [],
    callouts: [],
    chains: [
      {
        links: [
          ...(claddingMm > 0 ? [link(0, carcass, 5)] : []),
          ...(gapMm > 0 ? [link(carcass, frameFront, 8)] : []),
          link(frameFront, back, 9),
        ],
      },
      { links: [link(0, back, 9)] },
    ],
    levels: [
      { heightMm: build.feet, word: 'feet', text: length(build.feet) },
      { heightMm: underTop, word: 'under top', text: length(underTop) },
      { heightMm: top, word: 'top', text: length(top) },
      ...(heights.upstandMm > 0 ? [{ heightMm: upstand, word: 'upstand', text: length(upstand) }] : []),
      ...(hasServingShelf ? [{ heightMm: shelf, word: 'shelf', text: length(shelf) }] : []),
    ],
    parts: [],
  };
  return {
    drawing,
    labels,
    assumption: `${assumed} Not stated by the stock range: drawn as commonly built. Ask the maker before relying on it.`,
  };
};
