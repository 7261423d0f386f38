import type { Run } from '../../document/projectDocument.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import { type PaperPoint, type Point, paperPoint } from '../../geometry/point.ts';
import { distanceBetween, pointBetween } from '../../geometry/vector.ts';
import { cornersOf } from '../../measure/corners.ts';
import { pieceFootprint } from '../../measure/footprint.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { mmPerUserUnit, type SheetScale } from '../../measure/tracedRun.ts';
import { pieceMarks } from '../../quote/pieceMarks.ts';
import type { ElevationFeature, StockItem, StockRange } from '../../stock/stockSchema.ts';
import { type FitOnPlan, fitOnPlan } from '../fitOnPlan.ts';
import type { Prism, PrismLook, PrismStack } from './prism.ts';

/** A run as it stands in the picture. */
export interface RunInPicture {
  readonly run: Run;
  readonly alternative: FitAlternative;
  readonly scale: SheetScale;
  /** Bays and low sections: lengths with a top and nothing under it. */
  readonly tops: readonly {
    readonly straight: number;
    readonly fromMm: number;
    readonly toMm: number;
    readonly topMm: number;
  }[];
}

/** Things that are let into a top, and upright ones with their heights in the picture, mm: no product's sizes. */
const letIn: readonly ElevationFeature[] = ['basin', 'sink', 'ice-well', 'pan-cut-outs', 'drip-tray'];
const uprightMm: Partial<Record<ElevationFeature, number>> = { tap: 300, till: 380, 'glass-rinser': 160 };

type Ring = readonly [frontStart: Point, frontEnd: Point, backEnd: Point, backStart: Point];

/** The part of a footprint from `near` to `far` of its depth and `from` to `to` of its length. */
const partOf = (ring: Ring, from: number, to: number, near: number, far: number): readonly Point[] => {
  const at = (along: number, back: number): Point =>
    pointBetween(pointBetween(ring[0], ring[1], along), pointBetween(ring[3], ring[2], along), back);
  return [at(from, near), at(to, near), at(to, far), at(from, far)];
};

const inMm = (ring: readonly PaperPoint[], mm: number): readonly Point[] =>
  ring.map(({ x, y }) => ({ x: x * mm, y: y * mm }));

const lookOf = (part: FitOnPlan): PrismLook => {
  if (part.kind === 'corner') return 'corner';
  if (part.kind === 'leftover' || part.kind === 'wedge') return 'leftover';
  return part.isStation ? 'station' : 'body';
};

/** What shows on the top of an item whose footprint is given. */
const featuresOn = (
  item: StockItem | undefined,
  ring: Ring,
  {
    topMm,
    isTurned,
    behindShelf,
  }: { readonly topMm: number; readonly isTurned: boolean; readonly behindShelf: number },
): readonly Prism[] =>
  (item?.elevation ?? []).flatMap(({ feature, fromMm, toMm, count = 1 }): Prism[] => {
    const share = (mm: number) => (isTurned ? 1 - mm / item!.widthMm : mm / item!.widthMm);
    const from = Math.min(share(fromMm), share(toMm));
    const to = Math.max(share(fromMm), share(toMm));
    const widthMm = Math.max(1, distanceBetween(ring[0], ring[1]));
    const upright = (at: number, halfMm: number, lowMm: number, highMm: number): Prism => ({
      footprint: partOf(ring, at - halfMm / widthMm, at + halfMm / widthMm, behindShelf, behindShelf + 0.07),
      fromMm: topMm + lowMm,
      toMm: topMm + highMm,
      look: 'fitting',
    });
    const middle = (from + to) / 2;
    if (feature === 'beer-taps') {
      const halfMm = ((to - from) * widthMm) / 2;
      const taps = Array.from({ length: count }, (_, index) => from + ((to - from) * (index + 0.5)) / count);
      return [
        ...[from, to].map((at) => upright(at, 20, 0, 360)),
        upright(middle, halfMm + 20, 360, 430),
        ...taps.map((at) => upright(at, 14, 430, 570)),
      ];
    }
    const heightMm = uprightMm[feature];
    if (heightMm !== undefined)
      return [upright(middle, feature === 'till' ? ((to - from) * widthMm) / 2 : 18, 0, heightMm)];
    return letIn.includes(feature)
      ? [{ footprint: partOf(ring, from, to, 0.42, 0.86), fromMm: topMm, toMm: topMm, look: 'recess' }]
      : [];
  });

/**
 * The bar as solids: each piece on its feet with its top, upstand and shelf at the customer's side, and what shows on
 * it. Heights are those of the range, the working top's those of the run where it has its own.
 */
export const barSolids = (
  { run, alternative, scale, tops }: RunInPicture,
  range: StockRange,
): readonly PrismStack[] => {
  const { heights } = range;
  const topMm = run.levels?.topHeightMm ?? heights.topMm;
  const mm = mmPerUserUnit(scale);
  const items = new Map(range.items.map((item) => [item.id, item]));
  const parts = fitOnPlan(run, alternative, pieceMarks(1, alternative), scale, range);
  const upstandMm = topMm + heights.upstandMm;
  const shelfMm = topMm + (heights.shelfMm - heights.topMm);
  const shelfShare = Math.min(0.6, heights.shelfDepthMm / run.depthMm);

  // Positions within an item run from its left end as the bartender sees it: with the back on the walker's left, that
  // is the end that the front reaches last.
  const seen = { topMm, isTurned: run.backSide === 'left', behindShelf: shelfShare + 0.03 };

  const slab = (footprint: readonly Point[], at: number): Prism => ({
    footprint,
    fromMm: at - heights.topThicknessMm,
    toMm: at,
    look: 'top',
  });
  const customerSide = (ring: Ring, shelf: number): readonly Prism[] => [
    { footprint: partOf(ring, 0, 1, 0, 0.05), fromMm: topMm, toMm: upstandMm, look: 'shelf' },
    {
      footprint: partOf(ring, 0, 1, 0, shelf),
      fromMm: shelfMm - heights.shelfThicknessMm,
      toMm: shelfMm,
      look: 'shelf',
    },
  ];
  const turns = cornersOf(runAsTraced(run)).map(({ turnDeg }) => turnDeg);
  /** A square corner unit with the front on its outside shows it on two sides: from its outer corner both ways. */
  const aroundCorner = ({ part, treatment }: Extract<FitOnPlan, { kind: 'corner' }>, ring: Ring) => {
    if (treatment !== 'corner-unit' || (turns[Number(part.split(':')[1])] ?? 0) <= 0) return [];
    const [outer, onAfter, inner, onBefore] = ring;
    const share = Math.min(0.6, heights.shelfDepthMm / Math.max(1, distanceBetween(outer, onAfter)));
    return [
      ...customerSide([onBefore, outer, onAfter, inner], share),
      ...customerSide([outer, onAfter, inner, onBefore], share),
    ];
  };
  const hosted = parts.filter(
    (part) => part.kind === 'piece' && (part.support === 'drop-in' || part.support === 'countertop'),
  );
  const stacks = parts
    .filter((part) => !hosted.includes(part))
    .map((part): PrismStack => {
      const footprint = inMm(part.ring, mm);
      const isFourSided = footprint.length === 4;
      const ring = footprint as unknown as Ring;
      const carried = part.kind === 'piece' && part.support === 'carried';
      const own = part.kind === 'piece' ? featuresOn(items.get(part.item), ring, seen) : [];
      const on = hosted.filter(
        (other) => other.kind === 'piece' && alternativeHost(alternative, other.part) === part.part,
      );
      const prisms: Prism[] = [
        {
          footprint,
          fromMm: carried ? topMm * 0.45 : heights.feetMm,
          toMm: topMm - heights.topThicknessMm,
          look: lookOf(part),
        },
        slab(footprint, topMm),
        ...own,
        ...on.flatMap((other) => {
          const place = inMm(other.ring, mm) as unknown as Ring;
          const shown = other.kind === 'piece' ? featuresOn(items.get(other.item), place, seen) : [];
          return shown.length > 0
            ? shown
            : [
                other.kind === 'piece' && other.support === 'drop-in'
                  ? ({ footprint: place, fromMm: topMm, toMm: topMm, look: 'recess' } as const)
                  : ({ footprint: place, fromMm: topMm, toMm: topMm + 250, look: 'fitting' } as const),
              ];
        }),
        ...(part.kind !== 'corner' && isFourSided ? customerSide(ring, shelfShare) : []),
        ...(part.kind === 'corner' && isFourSided ? aroundCorner(part, ring) : []),
      ];
      return { footprint, prisms };
    });
  const traced = runAsTraced(run);
  const open = tops.map(({ straight, fromMm, toMm, topMm: at }): PrismStack => {
    const ring = pieceFootprint(traced, straight, { fromMm, toMm }, scale, {
      claddingMm: run.allowances.claddingMm,
    }).map(({ x, y }) => paperPoint(x * mm, y * mm));
    return { footprint: ring, prisms: [slab(ring, at)] };
  });
  return [...stacks, ...open];
};

const alternativeHost = (alternative: FitAlternative, part: FitOnPlan['part']): string | null => {
  const host = alternative.pieces[Number(part.split(':')[1])]?.host;
  return host === undefined ? null : `piece:${host}`;
};
