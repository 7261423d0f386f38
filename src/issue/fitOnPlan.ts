import type { Run } from '../document/projectDocument.ts';
import type { FitAlternative, LeftoverVerdict } from '../fitting/fitAnswer.ts';
import type { PaperPoint } from '../geometry/point.ts';
import { cornerFootprint, type Footprint, pieceFootprint } from '../measure/footprint.ts';
import { runAsTraced } from '../measure/runAsTraced.ts';
import type { SheetScale } from '../measure/tracedRun.ts';
import type { PieceMarks } from '../quote/pieceMarks.ts';
import type { StockRange, Support } from '../stock/stockSchema.ts';

/** Names a part of a fit, the same in plan, elevation and schedule, so that each can light up in the others. */
export type PartName = `piece:${number}` | `corner:${number}` | `leftover:${number}` | `zone:${string}`;

interface PartOnPlan {
  readonly part: PartName;
  /** Paper points; the first two are the front edge of a piece or leftover. */
  readonly ring: readonly PaperPoint[];
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
  const ringOf = (span: Span) => pieceFootprint(traced, span.straight, span, scale, { claddingMm });

  const pieces = alternative.pieces.map((piece, index): FitOnPlan => {
    const item = items.get(piece.item);
    const isHosted = piece.host !== undefined;
    const ring = isHosted ? hostedRing(ringOf(piece)) : ringOf(piece);
    const covering = alternative.pieces.filter(({ host }) => host === index);
    return {
      kind: 'piece',
      part: `piece:${index}`,
      ring,
      letterRing: covering.length > 0 ? ringOf(clearPart(piece, covering)) : ring,
      mark: marks.pieces[index] ?? '',
      item: piece.item,
      name: item?.name ?? piece.item,
      isStation: item?.kind === 'station',
      support: item?.support ?? 'standing',
      widthMm: piece.toMm - piece.fromMm,
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
  const leftovers = alternative.leftovers.map((leftover, index): FitOnPlan => {
    const ring = ringOf(leftover);
    return {
      kind: 'leftover',
      part: `leftover:${index}`,
      ring,
      letterRing: ring,
      mark: marks.leftovers[index] ?? '',
      verdict: leftover.verdict,
      widthMm: leftover.widthMm,
      confirmed: leftover.confirmed,
    };
  });
  const isHosted = (part: FitOnPlan) =>
    part.kind === 'piece' && (part.support === 'drop-in' || part.support === 'countertop');
  return [...corners, ...pieces.filter((part) => !isHosted(part)), ...leftovers, ...pieces.filter(isHosted)];
};
