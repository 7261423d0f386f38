import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import type { ModelSpan } from './fitModelSpans.ts';
import { Linear } from './linear.ts';

/** One slot of a span, with a binary for each item that may stand in it and each hosted piece that may be on it. */
export interface ModelSlot {
  readonly span: ModelSpan;
  readonly spanIndex: number;
  readonly slot: number;
  readonly isLast: boolean;
  readonly place: Linear;
  readonly used: Linear;
  readonly items: readonly { readonly id: string; readonly x: string; readonly widthMm: number }[];
  readonly hosted: readonly {
    readonly id: string;
    readonly index: number;
    readonly key: string;
    readonly h: string;
    readonly place: string;
    readonly widthMm: number;
    /** By the key of another on the same slot: the binary that says that this one lies to the left of it. */
    readonly before: Map<string, string>;
  }[];
}

/** A piece that may be in a slot: its binary, and where it begins. */
interface Candidate {
  readonly id: string;
  readonly chosen: string;
  readonly from: Linear;
  readonly widthMm: number;
}

const candidatesOf = ({ items, hosted, place }: ModelSlot): readonly Candidate[] => [
  ...items.map(({ id, x, widthMm }) => ({ id, chosen: x, from: place, widthMm })),
  ...hosted.map(({ id, h, place: at, widthMm }) => ({
    id,
    chosen: h,
    from: new Linear().add(1, at),
    widthMm,
  })),
];

/**
 * The rules between pieces and at columns, as rows of the program, from the docstrings of the problem's fields. Slots of
 * one straight come in the sequence of their places, so which of two pieces in different slots lies to the left is known.
 */
export const modelRules = (
  problem: FitProblem,
  slots: readonly ModelSlot[],
  binary: (name: string) => string,
  row: (expression: Linear, relation: '<=' | '>=' | '=', right?: number) => void,
): void => {
  const stock = new Map(problem.stock.map((item) => [item.id, item]));
  const linear = () => new Linear();
  const farMm =
    4 * Math.max(...problem.straights.map(({ lengthMm }) => lengthMm)) +
    4 * problem.depthMm +
    Math.max(0, ...(problem.wanted ?? []).map(({ nearMm, withinMm }) => Math.abs(nearMm) + withinMm)) +
    Math.max(0, ...problem.stock.flatMap(({ clearOf = [] }) => clearOf.map((rule) => rule.distanceMm)));
  const slotAt = (spanIndex: number, slot: number) =>
    slots.find((one) => one.spanIndex === spanIndex && one.slot === slot);

  // Hands: the first piece of a span is free at its start only where the span is open there, and likewise the last.
  for (const one of slots) {
    for (const { id, x } of one.items) {
      const { hand } = stock.get(id)!;
      if (hand === undefined) continue;
      if (hand === (problem.startHand ?? 'left')) {
        if (one.slot === 0 && !one.span.startOpen) row(linear().add(1, x), '<=', 0);
      } else if (!one.span.endOpen) {
        const need = linear().add(1, x);
        const next = slotAt(one.spanIndex, one.slot + 1);
        if (next) need.addAll(-1, next.used);
        row(need, '<=', 0);
      }
    }
  }

  // Beside: something of the list in the same place or in the next one on either side.
  for (const one of slots) {
    const near = [-1, 0, 1].flatMap((by) => {
      const other = slotAt(one.spanIndex, one.slot + by);
      return other ? candidatesOf(other) : [];
    });
    for (const candidate of candidatesOf(one)) {
      const { beside } = stock.get(candidate.id)!;
      if (beside === undefined) continue;
      const need = linear().add(1, candidate.chosen);
      for (const other of near) {
        if (other.chosen !== candidate.chosen && beside.includes(other.id)) need.add(-1, other.chosen);
      }
      row(need, '<=', 0);
    }
  }

  // Clear of: the distance from the end of the left one to the start of the right one, where both are there.
  const clearMm = (a: string, b: string): number =>
    Math.max(
      0,
      ...(stock.get(a)!.clearOf ?? []).filter(({ item }) => item === b).map((rule) => rule.distanceMm),
      ...(stock.get(b)!.clearOf ?? []).filter(({ item }) => item === a).map((rule) => rule.distanceMm),
    );
  const keepClear = (left: Candidate, right: Candidate, onlyIf?: { name: string; is: 0 | 1 }): void => {
    const needMm = clearMm(left.id, right.id);
    if (needMm === 0) return;
    const apart = linear()
      .addAll(1, right.from)
      .addAll(-1, left.from)
      .plus(-left.widthMm - needMm)
      .add(-farMm, left.chosen)
      .add(-farMm, right.chosen)
      .plus(2 * farMm);
    if (onlyIf) apart.plus(onlyIf.is * farMm).add(onlyIf.is === 1 ? -farMm : farMm, onlyIf.name);
    row(apart, '>=', 0);
  };
  for (const [rank, one] of slots.entries()) {
    for (const host of one.items) {
      for (const { id, h } of one.hosted) {
        if (clearMm(id, host.id) > 0) row(linear().add(1, h).add(1, host.x), '<=', 1);
      }
    }
    const hostedHere = candidatesOf(one).slice(one.items.length);
    for (const [at, { before }] of one.hosted.entries()) {
      for (const [other, { key }] of one.hosted.entries()) {
        const name = before.get(key);
        if (name === undefined) continue;
        keepClear(hostedHere[at]!, hostedHere[other]!, { name, is: 1 });
        keepClear(hostedHere[other]!, hostedHere[at]!, { name, is: 0 });
      }
    }
    for (const other of slots.slice(rank + 1)) {
      if (other.span.straight !== one.span.straight) continue;
      for (const left of candidatesOf(one)) {
        for (const right of candidatesOf(other)) keepClear(left, right);
      }
    }
  }

  // Columns that are passed: what is too deep for one ends before it or begins after it.
  for (const one of slots) {
    for (const [index, column] of (problem.straights[one.span.straight]!.columns ?? []).entries()) {
      const leftMm = problem.depthMm - column.depthMm;
      const deep = one.items.filter(({ id }) => (stock.get(id)!.depthMm ?? problem.depthMm) > leftMm);
      if (deep.length === 0) continue;
      const after = binary(`q${one.spanIndex}_${one.slot}_${index}`);
      for (const { x, widthMm } of deep) {
        row(
          linear()
            .addAll(1, one.place)
            .plus(widthMm - column.fromMm)
            .add(farMm, x)
            .add(-farMm, after),
          '<=',
          farMm,
        );
        row(
          linear().addAll(1, one.place).plus(-column.toMm).add(-farMm, x).add(-farMm, after),
          '>=',
          -2 * farMm,
        );
      }
    }
  }
};
