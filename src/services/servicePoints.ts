import type { Run } from '../document/projectDocument.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import { moduleFootprint } from '../measure/footprint.ts';
import { runAsTraced } from '../measure/runAsTraced.ts';
import { paperPointAt } from '../measure/runPosition.ts';
import { pickUncertaintyUnits, type SheetScale } from '../measure/tracedRun.ts';
import { isFirstPointOnCustomersLeft } from '../measure/unrolled.ts';
import type { RunZone } from '../measure/zonesOfRun.ts';
import { lengthUncertaintyMm } from '../scale/lengthUncertainty.ts';
import type { StockRange, StockService } from '../stock/stockSchema.ts';
import { type ServicePoint, tradeOf } from './servicePoint.ts';

/** Micrometres are the finest that a fit tells; what is finer is the last bits of float arithmetic. */
const wholeMicrometres = (mm: number): number => Math.round(mm * 1000) / 1000;

/**
 * Where on a straight the distance `offsetMm` from a piece's left end lies, left as the bartender sees it, who stands at
 * the working side and looks at the customer. What the customer has on the left, the bartender has on the right: where
 * the run's first point is on the customer's left, the piece's left end is its far one.
 */
export const alongFromBartendersLeft = (
  run: Pick<Run, 'backSide'>,
  piece: { readonly fromMm: number; readonly toMm: number },
  offsetMm: number,
): number =>
  wholeMicrometres(isFirstPointOnCustomersLeft(run) ? piece.toMm - offsetMm : piece.fromMm + offsetMm);

/** A piece as wide as its own face: on an arc that is not quite what its corners take of the front. */
const ownFace = ({ fromMm, toMm, widthMm = toMm - fromMm }: FitAlternative['pieces'][number]) => {
  const middleMm = (fromMm + toMm) / 2;
  return { fromMm: middleMm - widthMm / 2, toMm: middleMm + widthMm / 2 };
};

/**
 * Every service of a fitted run, of its pieces and of the equipment by others in its bays, where it comes up. Across the run it is set out at the middle of the services gap,
 * which lies behind the frames as the bartender sees them: at the customer's side, right behind the cladding
 * (common practice, no source). The distance from the back line follows from that. In the order of the front line.
 */
export const servicePoints = (
  run: Run,
  alternative: FitAlternative,
  range: StockRange,
  scale: SheetScale,
  zones: readonly RunZone[] = [],
): readonly ServicePoint[] => {
  const traced = runAsTraced(run);
  const items = new Map(range.items.map((item) => [item.id, item]));
  const { claddingMm } = run.allowances;
  const gapMm = Math.min(range.servicesGapMm, run.depthMm);
  const fromFrontMm = claddingMm + gapMm / 2;
  const fromBackMm = run.depthMm - gapMm / 2;
  const picks = {
    userUnit: scale.userUnit,
    pickUncertaintyPt: pickUncertaintyUnits(traced, scale.userUnit),
  };
  /** On an arc a piece is square to its own middle, not to the front beside it. */
  const placeOf = (piece: FitAlternative['pieces'][number], alongMm: number): PaperPoint => {
    const host = piece.host === undefined ? piece : (alternative.pieces[piece.host] ?? piece);
    if (host.widthMm === undefined) return paperPointAt(traced, piece.straight, alongMm, fromFrontMm, scale);
    const module = { ...host, widthMm: host.widthMm };
    const [frontStart, frontEnd, , backStart] = moduleFootprint(traced, host.straight, module, scale, {
      claddingMm,
    });
    const along = 0.5 + (alongMm - (host.fromMm + host.toMm) / 2) / host.widthMm;
    const back = (fromFrontMm - claddingMm) / run.depthMm;
    return paperPoint(
      frontStart.x + (frontEnd.x - frontStart.x) * along + (backStart.x - frontStart.x) * back,
      frontStart.y + (frontEnd.y - frontStart.y) * along + (backStart.y - frontStart.y) * back,
    );
  };
  const pointOf = (
    service: StockService,
    straight: number,
    alongMm: number,
    of: Pick<ServicePoint, 'asker' | 'item' | 'itemName' | 'atPaper'>,
  ): ServicePoint => ({
    ...of,
    kind: service.kind,
    trade: tradeOf(service.kind),
    connection: service.connection,
    count: service.count ?? 1,
    loadKw: service.loadKw ?? null,
    straight,
    alongMm,
    plusMinusMm: lengthUncertaintyMm(Math.abs(alongMm), scale, picks),
    fromFrontMm,
    fromBackMm,
    heightMm: service.heightMm,
  });
  const ofPieces = alternative.pieces.flatMap((piece, index): ServicePoint[] => {
    const item = items.get(piece.item);
    const face = piece.widthMm === undefined ? piece : ownFace(piece);
    return (item?.services ?? []).map((service): ServicePoint => {
      const alongMm = alongFromBartendersLeft(run, face, service.offsetMm);
      return pointOf(service, piece.straight, alongMm, {
        asker: { kind: 'piece', index },
        item: piece.item,
        itemName: item?.name ?? piece.item,
        atPaper: placeOf(piece, alongMm),
      });
    });
  });
  const ofBays = zones.flatMap((zone): ServicePoint[] =>
    (zone.kind === 'bay' ? (zone.services ?? []) : []).map((service): ServicePoint => {
      const alongMm = alongFromBartendersLeft(run, zone, service.offsetMm);
      return pointOf(service, zone.straight, alongMm, {
        asker: { kind: 'bay', zoneId: zone.id, equipment: zone.equipmentKind ?? null },
        item: '',
        itemName: equipmentByOthers(zone.name),
        atPaper: paperPointAt(traced, zone.straight, alongMm, fromFrontMm, scale),
      });
    }),
  );
  // A stable sort keeps askers in their order where everything else is equal.
  return [...ofPieces, ...ofBays].sort(
    (one, other) =>
      one.straight - other.straight ||
      one.alongMm - other.alongMm ||
      one.heightMm - other.heightMm ||
      (one.kind < other.kind ? -1 : one.kind > other.kind ? 1 : 0),
  );
};

/** What a bay's equipment is called where services are listed: always with who brings it. */
const equipmentByOthers = (name: string): string => {
  if (name === '' || name.toLowerCase() === 'bay') return 'Equipment by others';
  return /\bby others\b/i.test(name) ? name : `${name}, by others`;
};

/** What a straight’s positions are measured from, in words, and on which hand the bartender has it. */
export const datumOf = (run: Run, straight: number): string => {
  const side = isFirstPointOnCustomersLeft(run) ? 'right' : 'left';
  const start = straight === 0 ? 'first end of the run' : `corner ${straight}`;
  return `Straight ${straight + 1}: ${start}, on the front line (at the bartender’s ${side})`;
};
