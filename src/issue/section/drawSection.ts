import type { BayClearance, RunLevels } from '../../document/projectDocument.ts';
import { floorAt } from '../../measure/floorLevels.ts';
import { serviceWord } from '../../services/servicePoint.ts';
import type { StockItem, StockRange, StockService } from '../../stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../units/formatLength.ts';
import type { Drawing, Level } from '../drawing/drawing.ts';
import { drawingPen } from '../drawing/drawingPen.ts';
import { elevationBuild } from '../elevation/elevationBuild.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import { signedHeight } from '../elevation/elevationLevels.ts';
import type { PartName } from '../fitOnPlan.ts';
import { zoneTitle } from '../zoneTitle.ts';
import {
  bracketDropMm,
  drawCounterTop,
  drawEquipment,
  drawFront,
  drawLow,
  drawSectionFloor,
  drawServices,
  drawServicesGap,
  drawStanding,
  floorBeyondMm,
  hasServingShelf,
  type SectionFrame,
  thinPartMm,
} from './sectionParts.ts';

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

/** What a section cuts through: a standing module, a bay under the top, or a low section. */
export type SectionThrough =
  | { readonly kind: 'module'; readonly item: StockItem | undefined }
  | {
      readonly kind: 'bay';
      readonly name: string;
      readonly clearance: BayClearance | undefined;
      readonly services?: readonly StockService[];
    }
  | { readonly kind: 'low'; readonly name: string; readonly topHeightMm: number | undefined };

export interface SectionInput {
  readonly title: string;
  readonly caption: string;
  readonly depthMm: number;
  readonly claddingMm: number;
  readonly through: SectionThrough;
  readonly levels?: RunLevels | null | undefined;
  /** Where along the run the cut lies, 0 at its start and 1 at its end: the floor may fall. */
  readonly share: number;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
}

/** Marks in words what is drawn from common practice and not from data. */
const assumed = '*';

const frameOf = ({ depthMm, claddingMm, range, levels, share }: SectionInput): SectionFrame => {
  const own = elevationBuild(range, levels);
  const floor = levels ? own.datum + floorAt(levels, share) : 0;
  const gapMm = Math.min(range.servicesGapMm, Math.max(0, depthMm - 3 * own.tube));
  return {
    build: { ...own, floorAt: () => floor },
    range,
    carcass: claddingMm,
    gapMm,
    frameFront: claddingMm + gapMm,
    back: claddingMm + depthMm,
    floor,
    floorBehind: floor + (levels?.raisedFloorBehindMm ?? 0),
  };
};

/** The words for the counter's top and what stands on it. */
const topLabels = (place: SectionFrame, unit: DisplayUnit): readonly SectionLabel[] => {
  const { build, range, carcass, back } = place;
  const { heights, extras } = range;
  const length = (mm: number) => drawnLength(mm, unit);
  const bracketFoot = Math.max(build.top, build.upstand - bracketDropMm);
  return [
    ...(hasServingShelf(range, build)
      ? [
          {
            at: { x: heights.shelfDepthMm * 0.8, y: build.shelf - heights.shelfThicknessMm / 2 },
            text: `Serving shelf ${length(heights.shelfDepthMm)} deep, ${length(heights.shelfThicknessMm)} thick; flush with the front line${assumed}`,
          },
        ]
      : []),
    ...(heights.upstandMm > 0
      ? [
          {
            at: { x: carcass + thinPartMm + 20, y: (bracketFoot + build.shelfUnder) / 2 },
            text: `Bracket ${length(extras.shelfBracket.thicknessMm)} thick, at most ${length(extras.shelfBracket.spacingMm)} apart; shape${assumed}`,
          },
          {
            at: { x: carcass + thinPartMm / 2, y: build.top + 60 },
            text: `Upstand ${length(heights.upstandMm)} high; place and thickness${assumed}`,
          },
        ]
      : []),
    {
      at: { x: back - 60, y: (build.underTop + build.top) / 2 },
      text: `Working top ${length(heights.topThicknessMm)} thick, over the whole depth${assumed}`,
    },
  ];
};

/** The words for what the section is cut through, after it is drawn. */
const drawThrough = (
  pen: ReturnType<typeof drawingPen<PartName>>,
  place: SectionFrame,
  { through, range, unit }: SectionInput,
): {
  readonly labels: readonly SectionLabel[];
  readonly levels: readonly Omit<Level, 'text'>[];
  readonly rightMm: number;
} => {
  const { build, back, frameFront, floor } = place;
  const { tube, underTop, railBottom } = build;
  const length = (mm: number) => drawnLength(mm, unit);
  if (through.kind === 'module') {
    const hasUndershelf = (through.item?.elevation ?? []).some(({ feature }) => feature === 'shelf');
    drawStanding(pen, place, hasUndershelf);
    drawCounterTop(pen, place);
    return {
      rightMm: back,
      levels: [],
      labels: [
        ...topLabels(place, unit),
        {
          at: { x: back - tube / 2, y: (underTop + railBottom) / 2 },
          text: `Frame, tube ${length(tube)} x ${length(tube)}, ${range.frame.legsPerFrame} legs`,
        },
        ...(hasUndershelf
          ? [{ at: { x: back - 120, y: railBottom }, text: `Undershelf; height${assumed}` }]
          : []),
        {
          at: { x: frameFront + tube / 2, y: (floor + build.feet) / 2 },
          text: `Foot, adjustable ± ${length(range.heights.feetAdjustMm)}`,
        },
      ],
    };
  }
  if (through.kind === 'bay') {
    const { heightMm = 0, doorSwingMm = 0 } = through.clearance ?? {};
    const head = drawEquipment(pen, place, { heightMm, doorSwingMm });
    drawCounterTop(pen, place);
    const services = (through.services ?? []).toSorted((one, other) => one.heightMm - other.heightMm);
    drawServices(pen, place, services);
    const highest = services.at(-1);
    return {
      rightMm: back + doorSwingMm,
      levels: heightMm > 0 ? [{ heightMm: head, word: 'kept free' }] : [],
      labels: [
        ...topLabels(place, unit),
        {
          at: { x: back - 80, y: (floor + head) / 2 },
          text: `${zoneTitle({ kind: 'bay', name: through.name || 'Equipment' })}: ${heightMm > 0 ? `${length(heightMm)} high kept free under the top` : `height${assumed}`}; depth${assumed}`,
        },
        ...(highest
          ? [
              {
                at: { x: place.carcass + place.gapMm / 2, y: floor + highest.heightMm },
                text: `Comes up, above the floor: ${services
                  .map(
                    ({ kind, connection, heightMm: up }) =>
                      `${serviceWord[kind].toLowerCase()} ${connection} at ${length(up)}`,
                  )
                  .join('; ')}. Check with the supplier`,
              },
            ]
          : []),
        ...(doorSwingMm > 0
          ? [
              {
                at: { x: back + doorSwingMm, y: floor + 120 },
                text: `Its door swings ${length(doorSwingMm)} out`,
              },
            ]
          : []),
      ],
    };
  }
  const head = floor + (through.topHeightMm ?? range.heights.lowSectionTopMm);
  drawLow(pen, place, head);
  return {
    rightMm: back,
    levels: [{ heightMm: head, word: 'low top' }],
    labels: [
      {
        at: { x: back - 60, y: head - range.heights.topThicknessMm / 2 },
        text: `${through.name || 'Low section'}: top ${length(head - floor)} above the floor, ${length(range.heights.topThicknessMm)} thick; clear underneath, ${length(head - floor - range.heights.topThicknessMm)} high`,
      },
      { at: { x: back - 30, y: build.top - 20 }, text: 'The neighbour’s end, seen beyond' },
    ],
  };
};

/**
 * A section across a run, the customer's side at the left: front line, cladding where the run has one, services gap, and
 * what stands there (a module's frame and feet, equipment by others, or a low top) under working top, upstand and serving
 * shelf. Heights, depths and thicknesses are the stock range's and the run's; what neither states (where the serving
 * shelf lies across, how thick the upstand is, how high the undershelf) is drawn as commonly built and marked with a star
 * (common practice, no source). Cut parts are hatched at 45 degrees and outlined thick, what lies behind the cut is drawn
 * in a medium line (ISO 128-3, from memory).
 */
export const drawSection = (input: SectionInput): SectionDrawing => {
  const { claddingMm, range, through, unit } = input;
  const place = frameOf(input);
  const { build, carcass, gapMm, frameFront, back, floor, floorBehind } = place;
  const length = (mm: number) => drawnLength(mm, unit);
  const pen = drawingPen<PartName>(0);
  const isLow = through.kind === 'low';
  const drawn = drawThrough(pen, place, input);
  const frontHead = isLow
    ? (drawn.levels[0]?.heightMm ?? build.top) - range.heights.topThicknessMm
    : build.upstand;
  drawFront(pen, place, frontHead);
  drawServicesGap(pen, place);
  const rightMm = Math.max(drawn.rightMm, range.heights.shelfDepthMm) + floorBeyondMm;
  drawSectionFloor(pen, place, rightMm);

  const axis = carcass + gapMm / 2;
  const labels: readonly SectionLabel[] = [
    ...drawn.labels,
    ...(gapMm > 0
      ? [
          {
            at: { x: axis, y: Math.max(build.railBottom - build.tube - 40, floor + 30) },
            text: `Services gap ${formatLength(gapMm, { unit })} clear; services set out on its axis, ${length(axis)} behind the front line`,
          },
        ]
      : []),
    {
      at: { x: claddingMm > 0 ? carcass / 2 : 0, y: floor + 40 },
      text:
        claddingMm > 0
          ? `Front cladding ${formatLength(claddingMm, { unit })}; height${assumed}`
          : 'Front line, as traced: the customer’s face. Front panel and kick by others',
    },
    ...(floorBehind === floor
      ? []
      : [
          {
            at: { x: back + floorBeyondMm / 2, y: floorBehind },
            text: `Working floor ${length(Math.abs(floorBehind - floor))} ${floorBehind > floor ? 'above' : 'below'} the floor under the run`,
          },
        ]),
  ];
  const link = (fromMm: number, toMm: number, rank: number) => ({
    fromMm,
    toMm,
    text: length(toMm - fromMm),
    rank,
  });
  // As in the elevations: where the run has levels, heights count from the sheet's datum.
  const level = (heightMm: number, word: string): Level => ({
    heightMm,
    word,
    text: input.levels ? signedHeight(heightMm - build.datum, unit) : length(heightMm),
  });
  const drawing: Drawing<PartName> = {
    title: input.title,
    caption: input.caption,
    leftEnd: 'Customer’s side',
    rightEnd: 'Working side',
    leftMm: -floorBeyondMm,
    rightMm,
    topMm: Math.max(build.shelf, build.upstand, build.top),
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
      ...(input.levels ? [level(floor, 'floor')] : []),
      ...(floorBehind === floor ? [] : [level(floorBehind, 'floor behind')]),
      ...(isLow ? [] : [level(build.feet, 'feet'), level(build.underTop, 'under top')]),
      ...drawn.levels.map(({ heightMm, word }) => level(heightMm, word)),
      level(build.top, 'top'),
      ...(range.heights.upstandMm > 0 ? [level(build.upstand, 'upstand')] : []),
      ...(hasServingShelf(range, build) ? [level(build.shelf, 'shelf')] : []),
    ].toSorted((one, other) => one.heightMm - other.heightMm),
    parts: [],
  };
  return {
    drawing,
    labels,
    assumption: `${assumed} Not stated by the stock range: drawn as commonly built. Ask the maker before relying on it.`,
  };
};
