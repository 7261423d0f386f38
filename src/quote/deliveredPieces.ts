import {
  type TravellingPiece,
  travellingCorner,
  travellingItem,
  travellingMadeToMeasure,
  travellingMitre,
  travellingWidened,
} from '../access/travellingPiece.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { arcWedgeName } from './arcWedgeName.ts';
import { pieceMarks } from './pieceMarks.ts';
import { widenedName } from './widenedItem.ts';

/** One piece of a fit as it comes to site, by its mark. */
export interface DeliveredPiece extends TravellingPiece {
  readonly mark: string;
  readonly name: string;
  readonly kind: 'stock' | 'corner-unit' | 'made-to-measure';
}

export interface DeliveredPieces {
  /** In the order along the front, each straight's pieces before the corner after it. */
  readonly pieces: readonly DeliveredPiece[];
  /** Marks of what can't be judged: the range no longer knows it, or the corner's angle is not given. */
  readonly notJudged: readonly string[];
}

const startOf = (entry: {
  readonly straight: number;
  readonly fromMm: number;
}): readonly [number, number] => [entry.straight, entry.fromMm];

/**
 * The pieces of a fit as they travel: stock and corner units with the range's packed size and mass, made-to-measure
 * pieces and wedges built like the range's modules. Fillers are among the loose parts (`looseParts`); what closes
 * brings nothing to site.
 *
 * @param run its place in the project's run list, from 1, its depth, and the turns of its corners in degrees.
 */
export const deliveredPieces = (
  run: { readonly number: number; readonly depthMm: number; readonly turnsDeg?: readonly number[] },
  alternative: FitAlternative,
  range: StockRange,
): DeliveredPieces => {
  const marks = pieceMarks(run.number, alternative);
  const items = new Map(range.items.map((item) => [item.id, item]));
  const units = new Map(range.cornerUnits.map((unit) => [unit.id, unit]));
  const placed: { readonly at: readonly [number, number]; readonly piece: DeliveredPiece }[] = [];
  const notJudged: string[] = [];
  for (const [index, piece] of alternative.pieces.entries()) {
    const mark = marks.pieces[index] ?? '';
    const item = items.get(piece.item);
    if (!item) {
      notJudged.push(mark);
      continue;
    }
    placed.push({
      at: startOf(piece),
      piece:
        piece.widenedMm === undefined
          ? { mark, name: item.name, kind: 'stock', ...travellingItem(range, item, run, mark) }
          : {
              mark,
              name: widenedName(item, piece.widenedMm),
              kind: 'made-to-measure',
              ...travellingWidened(range, item, piece.widenedMm, run, mark),
            },
    });
  }
  for (const [index, leftover] of alternative.leftovers.entries()) {
    if (leftover.verdict !== 'made-to-measure') continue;
    const mark = marks.leftovers[index] ?? '';
    placed.push({
      at: startOf(leftover),
      piece: {
        mark,
        name: `Made to measure ${Math.round(leftover.widthMm)}`,
        kind: 'made-to-measure',
        ...travellingMadeToMeasure(range, leftover.widthMm, run, mark),
      },
    });
  }
  for (const [index, wedge] of (alternative.wedges ?? []).entries()) {
    const mark = marks.wedges[index] ?? '';
    const sideMm = Math.max(wedge.frontMm, wedge.backMm);
    placed.push({
      at: startOf(wedge),
      piece: {
        mark,
        name: arcWedgeName(wedge),
        kind: 'made-to-measure',
        ...travellingMadeToMeasure(range, sideMm, run, mark),
      },
    });
  }
  for (const [index, corner] of alternative.corners.entries()) {
    const mark = marks.corners[index] ?? '';
    if (corner.treatment === 'mitre') {
      const turnDeg = run.turnsDeg?.[index];
      if (turnDeg === undefined) notJudged.push(mark);
      else
        placed.push({
          at: [index, Number.POSITIVE_INFINITY],
          piece: {
            mark,
            name: 'Corner wedge, made to measure',
            kind: 'made-to-measure',
            ...travellingMitre(range, turnDeg, run, mark),
          },
        });
    }
    if (corner.treatment !== 'corner-unit') continue;
    const unit = units.get(corner.item ?? '');
    if (!unit) {
      notJudged.push(mark);
      continue;
    }
    placed.push({
      at: [index, Number.POSITIVE_INFINITY],
      piece: { mark, name: unit.name, kind: 'corner-unit', ...travellingCorner(range, unit, mark) },
    });
  }
  placed.sort(({ at: [straight, from] }, { at: [otherStraight, otherFrom] }) =>
    straight === otherStraight ? (from === otherFrom ? 0 : from - otherFrom) : straight - otherStraight,
  );
  return { pieces: placed.map(({ piece }) => piece), notJudged };
};
