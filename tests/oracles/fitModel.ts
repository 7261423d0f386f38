import type { FitProblem, StockItem } from '../../src/fitting/problemSchema.ts';
import { type ModelSlot, modelRules } from './fitModelRules.ts';
import { type ModelCorner, modelCorners, modelSpans } from './fitModelSpans.ts';
import { Linear } from './linear.ts';

/**
 * A fitting problem as a mixed-integer program, in mm:
 *
 * - a binary per corner kind; the sides of each stretch are linear in them;
 * - each stretch has slots; a binary per slot and item (fill piece or wanted station that takes length), at most one
 *   item a slot, slots filled from the left; the place of a slot is the first piece's place plus all before it;
 * - left + pieces + joints + right = length; binaries say whether a part is a filler, made to measure, or the whole
 *   closes; exposed sides have no part and a place within their give;
 * - a binary per slot and hosted station, its own place inside its host, pairs on one host kept in sequence;
 * - a station wanted by the name of a pair is a choice of items that share its wish;
 * - the rules between pieces and at columns that are passed, see `modelRules`.
 *
 * The score's seven places are minimised one after another, each better place held at its optimum.
 */
export interface FitModel {
  readonly variables: ReadonlyMap<
    string,
    { readonly low: number; readonly high: number; readonly isBinary: boolean }
  >;
  readonly rows: readonly ModelRow[];
  readonly objectives: readonly {
    readonly terms: ReadonlyMap<string, number>;
    readonly constant: number;
    readonly isInteger: boolean;
  }[];
  readonly slackMm: number;
}

interface ModelRow {
  readonly terms: ReadonlyMap<string, number>;
  readonly relation: '<=' | '>=' | '=';
  readonly right: number;
}

interface ModelItem {
  readonly key: string;
  readonly id: string;
  readonly widthMm: number;
  readonly standing: boolean;
  readonly price: number;
  readonly wish: number | undefined;
}

/** Builds the program, or nothing where a corner has no kind that serves. */
export const fitModel = (problem: FitProblem): FitModel | undefined => {
  const variables = new Map<string, { low: number; high: number; isBinary: boolean }>();
  const rows: ModelRow[] = [];
  const row = (expression: Linear, relation: ModelRow['relation'], right = 0) =>
    rows.push({ terms: expression.terms, relation, right: right - expression.constant });
  const binary = (name: string) => {
    variables.set(name, { low: 0, high: 1, isBinary: true });
    return name;
  };
  const real = (name: string, low: number, high: number) => {
    variables.set(name, { low, high, isBinary: false });
    return name;
  };
  const linear = () => new Linear();
  const goals = Array.from({ length: 7 }, linear);
  const wishes = problem.wanted ?? [];
  goals[0]!.plus(wishes.length);
  const widest = problem.maxWidthMm ?? Number.POSITIVE_INFINITY;
  const joint = problem.allowances?.jointMm ?? 0;
  const margin = problem.hostMarginMm ?? 30;

  // Corners.
  const corners: ModelCorner[][] = [];
  for (const index of (problem.corners ?? []).keys()) {
    const kinds = modelCorners(problem, index);
    if (kinds.length === 0) return undefined;
    corners.push(kinds);
    const one = linear();
    for (const [kind, corner] of kinds.entries()) {
      const name = binary(`t${index}_${kind}`);
      one.add(1, name);
      goals[1]!.add(corner.madeToMeasure, name);
      goals[4]!.add(corner.pieces, name);
      goals[6]!.add(corner.price, name);
    }
    row(one, '=', 1);
  }
  const structure = modelSpans(problem, corners);
  for (const clash of structure.excluded) {
    row(
      clash.reduce((sum, name) => sum.add(1, name), linear()),
      '<=',
      clash.length - 1,
    );
  }
  const side = (at: (typeof structure.spans)[number]['low']): Linear => {
    const expression = linear().plus(at.atMm);
    for (const [name, factor] of at.byKind) expression.add(factor, name);
    return expression;
  };
  const placedBy = wishes.map(linear);
  const displaced = wishes.map((wish, index) => real(`d${index}`, 0, wish.withinMm));
  for (const name of displaced) goals[5]!.add(1, name);
  const mayStand = (item: StockItem) => item.widthMm <= widest && (item.depthMm ?? 0) <= problem.depthMm;
  /** Every wish with every item that may answer it. */
  const answers = wishes.flatMap((wish, index) =>
    problem.stock
      .filter(
        ({ id, handOf, hand }) => id === wish.item || (handOf === wish.item && (wish.hand ?? hand) === hand),
      )
      .filter(mayStand)
      .map((item, variant) => ({ wish, index, item, key: `${index}_${variant}` })),
  );
  const isHosted = ({ support }: StockItem) => support === 'drop-in' || support === 'countertop';
  const hosted = answers
    .filter(({ item }) => isHosted(item))
    .map((answer) => {
      const { wish, item, key } = answer;
      const lowMm = wish.nearMm - wish.withinMm - item.widthMm / 2;
      const place = real(`f${key}`, lowMm, lowMm + 2 * wish.withinMm);
      return { ...answer, place, widthMm: item.widthMm };
    });
  for (const { index, wish, place, widthMm } of hosted) {
    const near = wish.nearMm - widthMm / 2;
    row(linear().add(1, displaced[index]!).add(-1, place).plus(near), '>=');
    row(linear().add(1, displaced[index]!).add(1, place).plus(-near), '>=');
  }
  const isPlain =
    problem.straights.every(({ columns = [] }) => columns.length === 0) &&
    problem.stock.every(({ beside, clearOf, hand }) => !beside && !clearOf && !hand);
  const fills = new Map<string, ModelItem>();
  for (const [index, item] of problem.stock.entries()) {
    const takesLength = item.support === 'standing' || item.support === 'carried';
    if (!takesLength || !(item.fill ?? item.support === 'standing') || !mayStand(item)) continue;
    // Of those alike only the cheapest matters, but rules may tell them apart.
    const key = isPlain ? `${item.widthMm}${item.support}` : item.id;
    const known = fills.get(key);
    if (known && known.price <= (item.price ?? 0)) continue;
    fills.set(key, {
      key: `f${index}`,
      id: item.id,
      widthMm: item.widthMm,
      standing: item.support === 'standing',
      price: item.price ?? 0,
      wish: undefined,
    });
  }

  const allSlots: ModelSlot[] = [];
  for (const [spanIndex, span] of structure.spans.entries()) {
    const longest = span.longestMm;
    const big =
      Math.max(longest, 1) + Math.max(...problem.straights.map((one) => one.lengthMm)) + 2 * problem.depthMm;
    const items: ModelItem[] = [...fills.values()];
    for (const { wish, index, item, key } of answers) {
      if (wish.straight !== span.straight || isHosted(item)) continue;
      items.push({
        key: `w${key}`,
        id: item.id,
        widthMm: item.widthMm,
        standing: item.support === 'standing',
        price: item.price ?? 0,
        wish: index,
      });
    }
    const narrowest = Math.min(...items.map((item) => item.widthMm));
    const slots =
      items.length === 0 ? 0 : Math.max(0, Math.floor((longest + joint + 1e-6) / (narrowest + joint)));
    const used: Linear[] = [];
    const standing: Linear[] = [];
    const widths: Linear[] = [];
    const name = (slot: number, item: ModelItem) => `x${spanIndex}_${slot}_${item.key}`;
    for (let slot = 0; slot < slots; slot += 1) {
      used.push(linear());
      standing.push(linear());
      widths.push(linear());
      for (const item of items) {
        const x = binary(name(slot, item));
        used[slot]!.add(1, x);
        widths[slot]!.add(item.widthMm, x);
        if (item.standing) standing[slot]!.add(1, x);
        goals[4]!.add(1, x);
        goals[6]!.add(item.price, x);
        if (item.wish !== undefined) {
          placedBy[item.wish]!.add(1, x);
          goals[0]!.add(-1, x);
        }
      }
      row(linear().addAll(1, used[slot]!), '<=', 1);
      if (slot > 0)
        row(
          linear()
            .addAll(1, used[slot]!)
            .addAll(-1, used[slot - 1]!),
          '<=',
        );
    }
    for (let slot = 0; slot < slots; slot += 1) {
      for (const item of items) {
        if (item.standing) continue;
        for (const beside of [slot - 1, slot + 1]) {
          const need = linear().add(1, name(slot, item));
          if (standing[beside]) need.addAll(-1, standing[beside]);
          row(need, '<=');
        }
      }
    }
    const hasPiece = used[0] ?? linear();
    const low = side(span.low);
    const high = side(span.high);
    const left = real(`l${spanIndex}`, 0, span.low.exposed ? 0 : big);
    const right = real(`r${spanIndex}`, 0, span.high.exposed ? 0 : big);
    const lowGive = real(`a${spanIndex}`, -span.low.outMm, span.low.inMm);
    const highGive = real(`b${spanIndex}`, -span.high.inMm, span.high.outMm);
    const place = linear().addAll(1, low).add(1, lowGive).add(1, left);
    const total = linear();
    for (let slot = 0; slot < slots; slot += 1) total.addAll(1, widths[slot]!).addAll(joint, used[slot]!);
    total.addAll(-joint, hasPiece);
    row(linear().addAll(1, place).addAll(1, total).add(1, right).addAll(-1, high).add(-1, highGive), '=');
    if (!span.low.exposed && !span.high.exposed) row(linear().add(1, left).addAll(-big, hasPiece), '<=');
    if (span.low.exposed && span.high.exposed) row(linear().addAll(1, hasPiece), '>=', 1);
    goals[2]!.add(1, left).add(1, right);
    const closes = binary(`c${spanIndex}`);
    row(linear().add(1, left).add(1, right).add(big, closes), '<=', span.uncertaintyMm + big);
    for (const [part, tag] of [
      [left, 'l'],
      [right, 'r'],
    ] as const) {
      const made = binary(`m${tag}${spanIndex}`);
      const filler = binary(`p${tag}${spanIndex}`);
      goals[1]!.add(1, made);
      goals[3]!.add(1, filler);
      row(
        linear()
          .add(1, part)
          .add(-big, made)
          .add(-problem.fillerMaxMm, filler)
          .add(-span.uncertaintyMm, closes),
        '<=',
      );
    }
    // Places of slots, wishes and hosted pieces.
    const at = linear().addAll(1, place);
    for (let slot = 0; slot < slots; slot += 1) {
      const slotPlace = linear().addAll(1, at);
      at.addAll(1, widths[slot]!).addAll(joint, used[slot]!);
      for (const item of items) {
        if (item.wish === undefined) continue;
        const x = name(slot, item);
        const off = linear()
          .addAll(1, slotPlace)
          .plus(item.widthMm / 2 - wishes[item.wish]!.nearMm);
        const wide = 2 * big + Math.abs(wishes[item.wish]!.nearMm);
        row(linear().addAll(1, off).add(-1, displaced[item.wish]!).add(wide, x), '<=', wide);
        row(linear().addAll(-1, off).add(-1, displaced[item.wish]!).add(wide, x), '<=', wide);
      }
      const here: { one: (typeof hosted)[number]; h: string }[] = [];
      for (const one of hosted) {
        const { index, wish, item } = one;
        if (wish.straight !== span.straight) continue;
        const h = binary(`h${spanIndex}_${slot}_${one.key}`);
        here.push({ one, h });
        placedBy[index]!.add(1, h);
        goals[0]!.add(-1, h);
        goals[6]!.add(item.price ?? 0, h);
        row(linear().add(1, h).addAll(-1, standing[slot]!), '<=');
        const wide = 2 * big + Math.abs(wish.nearMm) + wish.withinMm;
        row(linear().addAll(1, slotPlace).plus(margin).add(-1, one.place).add(wide, h), '<=', wide);
        row(
          linear()
            .add(1, one.place)
            .plus(one.widthMm + margin)
            .addAll(-1, slotPlace)
            .addAll(-1, widths[slot]!)
            .add(wide, h),
          '<=',
          wide,
        );
      }
      const hosts: ModelSlot['hosted'][number][] = here.map(({ one, h }) => ({
        ...one,
        h,
        id: one.item.id,
        before: new Map(),
      }));
      for (const [rank, one] of here.entries()) {
        for (const [at, other] of here.entries()) {
          if (at <= rank || one.one.index === other.one.index) continue;
          const first = one.one;
          const second = other.one;
          const before = binary(`o${spanIndex}_${slot}_${first.key}_${second.key}`);
          hosts[rank]!.before.set(second.key, before);
          const wide = 4 * big + 2 * Math.max(...wishes.map((wish) => Math.abs(wish.nearMm) + wish.withinMm));
          row(
            linear()
              .add(1, first.place)
              .plus(first.widthMm)
              .add(-1, second.place)
              .add(wide, before)
              .add(wide, one.h)
              .add(wide, other.h),
            '<=',
            3 * wide,
          );
          row(
            linear()
              .add(1, second.place)
              .plus(second.widthMm)
              .add(-1, first.place)
              .add(-wide, before)
              .add(wide, one.h)
              .add(wide, other.h),
            '<=',
            2 * wide,
          );
        }
      }
      allSlots.push({
        span,
        spanIndex,
        slot,
        isLast: slot === slots - 1,
        place: slotPlace,
        used: used[slot]!,
        items: items.map((item) => ({ id: item.id, x: name(slot, item), widthMm: item.widthMm })),
        hosted: hosts,
      });
    }
  }
  modelRules(problem, allSlots, binary, row);
  for (const placed of placedBy) if (placed.terms.size > 0) row(placed, '<=', 1);
  for (const check of structure.notCrossed)
    row(side(check.low).addAll(-1, side(check.high)), '<=', check.givenMm);
  const isInteger = [true, true, false, true, true, false, false];
  return {
    variables,
    rows,
    objectives: goals.map((goal, place) => ({
      terms: new Map([...goal.terms].filter(([, factor]) => factor !== 0)),
      constant: goal.constant,
      isInteger: isInteger[place]!,
    })),
    slackMm: 0.002,
  };
};
