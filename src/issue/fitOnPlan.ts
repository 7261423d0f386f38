import type { Run } from '../document/projectDocument.ts';
import type { FitAlternative, LeftoverVerdict } from '../fitting/fitAnswer.ts';
import type { PaperPoint } from '../geometry/point.ts';
import {
  cornerFootprint,
  type Footprint,
  moduleFootprint,
  pieceFootprint,
  zoneOutline,
} from '../measure/footprint.ts';
import { runAsTraced } from '../measure/runAsTraced.ts';
import { bendOf } from '../measure/runPath.ts';
import type { SheetScale } from '../measure/tracedRun.ts';
import type { PieceMarks } from '../quote/pieceMarks.ts';
import type { StockRange, Support } from '../stock/stockSchema.ts';

/** Names a part of a fit, the same in plan, elevation and schedule, so that each can light up in the others. */
export type PartName =
  | `piece:${number}`
  | `corner:${number}`
  | `leftover:${number}`
  | `wedge:${number}`
  | `zone:${string}`;

interface PartOnPlan {
  readonly part: PartName;
  /** Paper points; the first two are the front edge of a piece or leftover. */
  readonly ring: readonly PaperPoint[];
  /** What is drawn where that has more than four corners: along an arc. */
  readonly outline?: readonly PaperPoint[];
  /** Where its letters go: the ring, less what other pieces on it cover. */
  readonly letterRing: readonly PaperPoint[];
  readonly mark: string;
}

/** What a fit puts on the plan, to scale, as rings in paper points. */
export type FitOnPlan =
  | (PartOnPlan & {
      readonly kind: 'piece';
      readonly item: string;
      readonly name: string;
      readonly isStation: boolean;
      readonly support: Support;
      readonly widthMm: number;
    })
  | (PartOnPlan & {
      readonly kind: 'corner';
      readonly treatment: 'corner-unit' | 'mitre';
      readonly name: string;
    })
  | (PartOnPlan & {
      readonly kind: 'leftover';
      readonly verdict: LeftoverVerdict;
      readonly widthMm: number;
      readonly confirmed: boolean;
    })
  | (PartOnPlan & {
      /** A made-to-measure wedge between two pieces of an arc, or at the end of one. */
      readonly kind: 'wedge';
      readonly frontMm: number;
      readonly backMm: number;
      readonly angleDeg: number;
    });

/** Of a run's depth, the share that a piece in or on another one is drawn with: it must not hide its host. */
const hostedDepthShare = 0.62;

const hostedRing = ([frontStart, frontEnd, backEnd, backStart]: Footprint): readonly PaperPoint[] => {
  const inset = (1 - hostedDepthShare) / 2;
  const between = (from: PaperPoint, to: PaperPoint, share: number) =>
    ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }) as PaperPoint;
  return [
    between(frontStart, backStart, inset),
    between(frontEnd, backEnd, inset),
    between(frontEnd, backEnd, 1 - inset),
    between(frontStart, backStart, 1 - inset),
  ];
};

interface Span {
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
}

/** The longest part of a host that nothing on it covers; the host itself where all of it is covered. */
const clearPart = (host: Span, covering: readonly Span[]): Span => {
  let best: Span | null = null;
  let fromMm = host.fromMm;
  const ends = [...covering].sort((one, other) => one.fromMm - other.fromMm);
  for (const { fromMm: coveredFrom, toMm: coveredTo } of [...ends, { fromMm: host.toMm, toMm: host.toMm }]) {
    if (coveredFrom - fromMm > (best ? best.toMm - best.fromMm : 0))
      best = { straight: host.straight, fromMm, toMm: coveredFrom };
    fromMm = Math.max(fromMm, coveredTo);
  }
  return best ?? host;
};

/** The part of a host's ring over a length of it, as far from its middle as along its front. */
const partOfHost = (
  host: { readonly fromMm: number; readonly toMm: number; readonly widthMm?: number },
  [frontStart, frontEnd, backEnd, backStart]: Footprint,
  { fromMm, toMm }: { readonly fromMm: number; readonly toMm: number },
): Footprint => {
  const widthMm = host.widthMm ?? host.toMm - host.fromMm;
  const share = (mm: number) =>
    Math.min(1, Math.max(0, 0.5 + (mm - (host.fromMm + host.toMm) / 2) / widthMm));
  const between = (from: PaperPoint, to: PaperPoint, at: number) =>
    ({ x: from.x + (to.x - from.x) * at, y: from.y + (to.y - from.y) * at }) as PaperPoint;
  const [from, to] = [share(fromMm), share(toMm)];
  return [
    between(frontStart, frontEnd, from),
    between(frontStart, frontEnd, to),
    between(backStart, backEnd, to),
    between(backStart, backEnd, from),
  ];
};

/** Lays a fit of a run out on its sheet. Hosts come before what they carry. */
export const fitOnPlan = (
  run: Run,
  alternative: FitAlternative,
  marks: PieceMarks,
  scale: SheetScale,
  range: StockRange,
): readonly FitOnPlan[] => {
  const traced = runAsTraced(run);
  const { claddingMm } = run.allowances;
  const items = new Map(range.items.map((item) => [item.id, item]));
  const ringOf = (span: Span & { readonly widthMm?: number | undefined }): Footprint => {
    const widthMm = span.widthMm ?? span.toMm - span.fromMm;
    return moduleFootprint(traced, span.straight, { ...span, widthMm }, scale, { claddingMm });
  };

  const clearRing = (host: FitAlternative['pieces'][number], clear: Span): Footprint =>
    host.widthMm === undefined ? ringOf(clear) : partOfHost(host, ringOf(host), clear);

  const pieces = alternative.pieces.map((piece, index): FitOnPlan => {
    const item = items.get(piece.item);
    const isHosted = piece.host !== undefined;
    const host = piece.host === undefined ? undefined : alternative.pieces[piece.host];
    const own = host?.widthMm === undefined ? ringOf(piece) : partOfHost(host, ringOf(host), piece);
    const ring = isHosted ? hostedRing(own) : own;
    const covering = alternative.pieces.filter(({ host }) => host === index);
    return {
      kind: 'piece',
      part: `piece:${index}`,
      ring,
      letterRing: covering.length > 0 ? clearRing(piece, clearPart(piece, covering)) : ring,
      mark: marks.pieces[index] ?? '',
      item: piece.item,
      name: item?.name ?? piece.item,
      isStation: item?.kind === 'station',
      support: item?.support ?? 'standing',
      widthMm: piece.widthMm ?? piece.toMm - piece.fromMm,
    };
  });
  const corners = alternative.corners.flatMap((corner, index): FitOnPlan[] => {
    const { treatment } = corner;
    if (treatment !== 'corner-unit' && treatment !== 'mitre') return [];
    const unit = range.cornerUnits.find(({ id }) => id === corner.item);
    const shape =
      treatment === 'mitre'
        ? ({ kind: 'mitre' } as const)
        : ({ kind: 'corner-unit', sizeMm: unit?.sizeMm ?? run.depthMm } as const);
    const ring = cornerFootprint(traced, index, shape, scale, { claddingMm });
    return [
      {
        kind: 'corner',
        part: `corner:${index}`,
        ring,
        letterRing: ring,
        mark: marks.corners[index] ?? '',
        treatment,
        name: treatment === 'mitre' ? 'Corner wedge' : (unit?.name ?? 'Corner unit'),
      },
    ];
  });
  const wedges = (alternative.wedges ?? []).map((wedge, index): FitOnPlan => {
    /** The side of a neighbour that the wedge lies at, or the line across the counter where it has none. */
    const sideOf = (pieceIndex: number | undefined, isBefore: boolean, atMm: number) => {
      const piece = pieceIndex === undefined ? undefined : alternative.pieces[pieceIndex];
      const [frontStart, frontEnd, backEnd, backStart] = piece
        ? ringOf(piece)
        : pieceFootprint(traced, wedge.straight, { fromMm: atMm, toMm: atMm }, scale, { claddingMm });
      return isBefore ? ([frontEnd, backEnd] as const) : ([frontStart, backStart] as const);
    };
    const [frontBefore, backBefore] = sideOf(wedge.after, true, wedge.fromMm);
    const [frontAfter, backAfter] = sideOf(wedge.before, false, wedge.toMm);
    const ring = [frontBefore, frontAfter, backAfter, backBefore];
    return {
      kind: 'wedge',
      part: `wedge:${index}`,
      ring,
      letterRing: ring,
      mark: marks.wedges[index] ?? '',
      frontMm: wedge.frontMm,
      backMm: wedge.backMm,
      angleDeg: wedge.angleDeg,
    };
  });
  const leftovers = alternative.leftovers.map((leftover, index): FitOnPlan => {
    const ring = pieceFootprint(traced, leftover.straight, leftover, scale, { claddingMm });
    const isOnArc = bendOf(traced, leftover.straight) !== undefined;
    return {
      kind: 'leftover',
      part: `leftover:${index}`,
      ring,
      ...(isOnArc
        ? { outline: zoneOutline(traced, leftover.straight, leftover, scale, { claddingMm }) }
        : {}),
      letterRing: ring,
      mark: marks.leftovers[index] ?? '',
      verdict: leftover.verdict,
      widthMm: leftover.widthMm,
      confirmed: leftover.confirmed,
    };
  });
  const isHosted = (part: FitOnPlan) =>
    part.kind === 'piece' && (part.support === 'drop-in' || part.support === 'countertop');
  const standing = pieces.filter((part) => !isHosted(part));
  return [...corners, ...standing, ...wedges, ...leftovers, ...pieces.filter(isHosted)];
};
