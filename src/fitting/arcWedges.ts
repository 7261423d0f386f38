import type { ArcFront } from './arcFront.ts';
import { apartMm, type CurvedModule } from './curvedModule.ts';
import type { FitPiece, FitWedge } from './fitAnswer.ts';
import { millimetres } from './micrometre.ts';
import { ownWidthOf, type StretchLayout, widthOf } from './stretchLayout.ts';

const degrees = (rad: number): number => Math.round((rad * 180e6) / Math.PI) / 1e6;
const rounded = (mm: number): number => Math.round(mm * 1000) / 1000;

/** What opens by less than this is no wedge: a joint takes it up. */
const leastMm = 0.5;

/** How much further apart than their sectors the corners at the open side of a piece are, as an angle. */
const openRad = ({ halfAngleRad, narrowHalfAngleRad }: CurvedModule): number =>
  halfAngleRad - narrowHalfAngleRad;

/** A gap across, given at the side where it opens and at the side where neighbours are nearest. */
const across = (arc: ArcFront, openMm: number, nearMm: number) =>
  arc.front === 'outside'
    ? { frontMm: rounded(openMm), backMm: rounded(nearMm) }
    : { frontMm: rounded(nearMm), backMm: rounded(openMm) };

/**
 * The wedges of one stretch of an arc: between neighbours, and between the outermost pieces and the line across the
 * counter at which the stretch ends, unless that is an exposed end, where nothing closes it. `pieces` are those published
 * so far, the stretch's own from index `first` on. Where a leftover lies between, its own end is cut to the wedge, which is
 * given all the same.
 */
export const arcWedges = (
  layout: StretchLayout,
  arc: ArcFront,
  pieces: readonly FitPiece[],
  first: number,
): readonly FitWedge[] => {
  const { stretch, sequence } = layout;
  const own = pieces.flatMap((piece, index) =>
    index >= first && piece.host === undefined ? [{ piece, index }] : [],
  );
  const modules = sequence.map((piece) => arc.moduleOf(millimetres(ownWidthOf(piece)))!);
  const { straight } = stretch;
  const jointRad = arc.jointUm / 1000 / arc.radiusMm;
  const between = own.slice(1).map((after, rank): FitWedge => {
    const before = own[rank]!;
    const [one, other] = [modules[rank]!, modules[rank + 1]!];
    const openMm = apartMm(one.openMm, other.openMm, jointRad + openRad(one) + openRad(other));
    return {
      straight,
      after: before.index,
      before: after.index,
      fromMm: before.piece.toMm,
      toMm: after.piece.fromMm,
      ...across(arc, openMm, apartMm(one.contactMm, other.contactMm, jointRad)),
      angleDeg: degrees(one.halfAngleRad + other.halfAngleRad + jointRad),
    };
  });
  const end = (rank: number, at: 'start' | 'end'): readonly FitWedge[] => {
    const [module, placed] = [modules.at(rank), own.at(rank)];
    if (!module || !placed || stretch[at === 'start' ? 'left' : 'right'] === 'exposed') return [];
    // From the corner at the open side square to the line across the counter.
    const gap = across(arc, module.openMm * Math.sin(openRad(module)), 0);
    const sectorUm = widthOf(sequence.at(rank)!);
    const insetMm = millimetres(
      Math.floor((sectorUm - (placed.piece.toMm - placed.piece.fromMm) * 1000) / 2),
    );
    const angleDeg = degrees(module.halfAngleRad);
    const { fromMm, toMm } = placed.piece;
    return at === 'start'
      ? [
          {
            straight,
            before: placed.index,
            fromMm: rounded(fromMm - insetMm),
            toMm: fromMm,
            ...gap,
            angleDeg,
          },
        ]
      : [{ straight, after: placed.index, fromMm: toMm, toMm: rounded(toMm + insetMm), ...gap, angleDeg }];
  };
  const wedges = [...end(0, 'start'), ...between, ...end(-1, 'end')];
  return wedges.filter(({ frontMm, backMm }) => Math.max(frontMm, backMm) >= leastMm);
};
