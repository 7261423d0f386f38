import type { FitProblem } from '../../src/fitting/problemSchema.ts';

/** A piece in place, with the number of the piece that it stands on or in; that of its own where it takes length. */
export interface RuledPiece {
  readonly item: string;
  readonly from: number;
  readonly to: number;
  readonly on: number;
}

type Column = NonNullable<FitProblem['straights'][number]['columns']>[number];

/** The rules between pieces and at columns, written from the problem's docstrings for the exhaustive search. */
export const exhaustiveRules = (problem: FitProblem) => {
  const stock = new Map(problem.stock.map((item) => [item.id, item]));
  const depthOf = (id: string) => stock.get(id)!.depthMm ?? problem.depthMm;
  const clear = (a: string, b: string): number =>
    Math.max(
      0,
      ...(stock.get(a)!.clearOf ?? []).filter(({ item }) => item === b).map((rule) => rule.distanceMm),
      ...(stock.get(b)!.clearOf ?? []).filter(({ item }) => item === a).map((rule) => rule.distanceMm),
    );
  const ruled = new Set(
    problem.stock.flatMap(({ id, clearOf = [] }) =>
      clearOf.length > 0 ? [id, ...clearOf.map((one) => one.item)] : [],
    ),
  );
  const tooNear = (a: RuledPiece, b: RuledPiece): boolean =>
    Math.max(a.from - b.to, b.from - a.to, 0) < clear(a.item, b.item);
  return {
    mayStand: (id: string): boolean => depthOf(id) <= problem.depthMm,
    /** Whether a piece that takes length may stand here with these columns behind it. */
    mayStandAt: (id: string, from: number, to: number, columns: readonly Column[]): boolean =>
      columns.every(
        (column) =>
          to <= column.fromMm || from >= column.toMm || depthOf(id) <= problem.depthMm - column.depthMm,
      ),
    /** Whether the pieces of one span, all of them, keep the rules among themselves. */
    areKept: (pieces: readonly RuledPiece[]): boolean => {
      for (const [index, piece] of pieces.entries()) {
        const wants = stock.get(piece.item)!.beside;
        if (
          wants !== undefined &&
          !pieces.some(
            (other, at) => at !== index && wants.includes(other.item) && Math.abs(other.on - piece.on) <= 1,
          )
        ) {
          return false;
        }
        if (pieces.some((other, at) => at < index && tooNear(piece, other))) return false;
      }
      return true;
    },
    /** Whether no piece that must be free at a side ends its span there before something fixed. */
    areFree: (
      pieces: readonly RuledPiece[],
      span: { readonly startOpen: boolean; readonly endOpen: boolean },
    ): boolean => {
      const long = pieces.filter(({ item }) => /standing|carried/.test(stock.get(item)!.support));
      const start = problem.startHand ?? 'left';
      return long.every(({ item, from }) => {
        const { hand } = stock.get(item)!;
        if (hand === undefined) return true;
        return hand === start
          ? span.startOpen || long.some((other) => other.from < from)
          : span.endOpen || long.some((other) => other.from > from);
      });
    },
    /** The pieces that a piece in another span of the straight may have to keep clear of. */
    ruledOf: (pieces: readonly RuledPiece[]): RuledPiece[] => pieces.filter(({ item }) => ruled.has(item)),
    areClear: (some: readonly RuledPiece[], others: readonly RuledPiece[]): boolean =>
      !some.some((one) => others.some((other) => tooNear(one, other))),
  };
};
