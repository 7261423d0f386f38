import type { FitAlternative, LeftoverVerdict } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { arcWedgeName } from './arcWedgeName.ts';
import type { RatedPrice } from './exactPrice.ts';
import type { Extra } from './extras.ts';
import { leftoverPrice } from './leftoverPrice.ts';
import { type PieceMarks, pieceMarks } from './pieceMarks.ts';
import { arcWedgePrice, wedgePrice } from './wedgePrice.ts';
import { widenedItem } from './widenedItem.ts';

export type ScheduleKind =
  | 'module'
  | 'station'
  | 'corner-unit'
  | 'corner-wedge'
  | LeftoverVerdict
  | 'by-others'
  | 'low-section'
  | 'extra';

/** One line of the schedule: a piece to order, a corner, a leftover to deal with, or an extra. Lengths in mm along the front. */
export interface ScheduleRow {
  readonly mark: string;
  readonly kind: ScheduleKind;
  readonly run: string;
  /** From 1, along the front line; for a corner, the straight that leads into it; null for an extra of the whole run. */
  readonly straight: number | null;
  /** 1 but for extras. Width, price and mass are of all of them together. */
  readonly count: number;
  /** Stock id; empty for a wedge or a leftover, which the range does not hold. */
  readonly item: string;
  readonly name: string;
  /** Null for corners, which take from two straights. */
  readonly fromMm: number | null;
  readonly toMm: number | null;
  /** Null for a wedge at a corner: its size follows from that. */
  readonly widthMm: number | null;
  /** In the range's currency; null where the range gives none. */
  readonly price: number | null;
  readonly massKg: number | null;
  readonly note: string;
}

const verdictWords: Readonly<Record<LeftoverVerdict, string>> = {
  closes: 'Closes within the drawing’s uncertainty: measure on site',
  filler: 'Filler',
  'made-to-measure': 'Made to measure',
};

/** What a leftover asks for, in words. */
export const verdictWord = (verdict: LeftoverVerdict): string =>
  ({ closes: 'closes', filler: 'filler', 'made-to-measure': 'made to measure' })[verdict];

/** A price by length in whole cents. */
const wholeCents = ({ base, ratePerMm, lengthMm }: RatedPrice): number =>
  Math.round((base + ratePerMm * lengthMm) * 100) / 100;

/** A run to list; with its problem, a wedge's size is known and it has a price. */
export interface ListedRun {
  readonly name: string;
  readonly number: number;
  readonly problem?: FitProblem;
}

const cornerRow = (
  { name: run, problem }: ListedRun,
  index: number,
  corner: FitAlternative['corners'][number],
  mark: string,
  range: StockRange,
): ScheduleRow | null => {
  const shared = { mark, run, straight: index + 1, count: 1, fromMm: null, toMm: null };
  if (corner.treatment === 'mitre') {
    const wedge = problem && wedgePrice(range, problem, index);
    return {
      ...shared,
      kind: 'corner-wedge',
      item: '',
      name: 'Corner wedge, made to measure',
      widthMm: null,
      price: wedge?.price ? wholeCents(wedge.price) : null,
      massKg: null,
      note: wedge?.note ?? 'Measure the corner’s angle on site before ordering',
    };
  }
  if (corner.treatment !== 'corner-unit') return null;
  const unit = range.cornerUnits.find(({ id }) => id === corner.item);
  return {
    ...shared,
    kind: 'corner-unit',
    item: corner.item ?? '',
    name: unit?.name ?? corner.item ?? 'Corner unit',
    widthMm: unit?.sizeMm ?? null,
    price: unit?.price ?? null,
    massKg: unit?.massKg ?? null,
    note: '',
  };
};

/** The rows of one run in the order of its front line, each straight’s pieces and leftovers before the corner after it. */
export const scheduleOfRun = (
  run: ListedRun,
  alternative: FitAlternative,
  range: StockRange,
  marks: PieceMarks = pieceMarks(run.number, alternative),
): readonly ScheduleRow[] => {
  const items = new Map(range.items.map((item) => [item.id, item]));
  const pieceRows = alternative.pieces.map((piece, index): ScheduleRow => {
    const item = items.get(piece.item);
    const host = piece.host === undefined ? null : marks.pieces[piece.host];
    const wider =
      item && piece.widenedMm !== undefined
        ? widenedItem(range, item, piece.widenedMm, run.problem?.depthMm ?? null)
        : null;
    return {
      mark: marks.pieces[index] ?? '',
      kind: item?.kind ?? 'module',
      run: run.name,
      straight: piece.straight + 1,
      count: 1,
      item: piece.item,
      name: wider?.name ?? item?.name ?? piece.item,
      fromMm: piece.fromMm,
      toMm: piece.toMm,
      widthMm: piece.widthMm ?? piece.toMm - piece.fromMm,
      price: wider ? wider.price : (item?.price ?? null),
      massKg: wider ? wider.massKg : (item?.massKg ?? null),
      note: wider
        ? 'Made wider to order: no stock piece, lead time as made to measure'
        : host
          ? `In ${host}`
          : item?.support === 'carried'
            ? 'Carried by its neighbours: fix them first'
            : '',
    };
  });
  const leftoverRows = alternative.leftovers.map(
    (leftover, index): ScheduleRow => ({
      mark: marks.leftovers[index] ?? '',
      kind: leftover.verdict,
      run: run.name,
      straight: leftover.straight + 1,
      count: 1,
      item: '',
      name: verdictWords[leftover.verdict],
      fromMm: leftover.fromMm,
      toMm: leftover.toMm,
      widthMm: leftover.widthMm,
      price: leftoverPrice(range, leftover.verdict, leftover.widthMm),
      massKg: null,
      note: leftover.confirmed ? '' : 'Not sure from this drawing: measure on site before ordering',
    }),
  );
  const wedgeRows = (alternative.wedges ?? []).map((wedge, index): ScheduleRow => {
    const { sideMm, price, note } = arcWedgePrice(range, wedge);
    return {
      mark: marks.wedges[index] ?? '',
      kind: 'corner-wedge',
      run: run.name,
      straight: wedge.straight + 1,
      count: 1,
      item: '',
      name: arcWedgeName(wedge),
      fromMm: wedge.fromMm,
      toMm: wedge.toMm,
      widthMm: sideMm,
      price: price ? wholeCents(price) : null,
      massKg: null,
      note,
    };
  });
  const straights =
    Math.max(0, alternative.corners.length, ...alternative.pieces.map(({ straight }) => straight)) + 1;
  const rows: ScheduleRow[] = [];
  for (let straight = 1; straight <= straights; straight += 1) {
    rows.push(
      ...[...pieceRows, ...wedgeRows, ...leftoverRows]
        .filter((row) => row.straight === straight)
        .sort((one, other) => (one.fromMm ?? 0) - (other.fromMm ?? 0) || (one.mark < other.mark ? -1 : 1)),
    );
    const corner = alternative.corners[straight - 1];
    const row = corner && cornerRow(run, straight - 1, corner, marks.corners[straight - 1] ?? '', range);
    if (row) rows.push(row);
  }
  return rows;
};

/** The extras of one run as rows that follow its pieces; their marks count on by themselves: `1.E1`. */
export const extraRows = (
  run: { readonly name: string; readonly number: number },
  extras: readonly Extra[],
): readonly ScheduleRow[] =>
  extras.map(({ name, count, lengthMm, price, massKg, note }, index) => ({
    mark: `${run.number}.E${index + 1}`,
    kind: 'extra',
    run: run.name,
    straight: null,
    count,
    item: '',
    name,
    fromMm: null,
    toMm: null,
    widthMm: lengthMm,
    price,
    massKg,
    note,
  }));
