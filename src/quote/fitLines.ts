import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { arcWedgeName } from './arcWedgeName.ts';
import { extraLines } from './extraLines.ts';
import { extrasOfRun } from './extras.ts';
import { leftoverLine } from './leftoverLine.ts';
import { type PieceMarks, pieceMarks } from './pieceMarks.ts';
import type { QuotedRun } from './quotedRun.ts';
import { fixedPrice, type UnpricedLine } from './quoteLine.ts';
import { arcWedgePrice, wedgePrice } from './wedgePrice.ts';
import { widenedItem } from './widenedItem.ts';
import { zoneLines } from './zoneLines.ts';

/** Equal stock pieces of one run become one line, with all their marks. */
const joined = (lines: readonly UnpricedLine[]): readonly UnpricedLine[] => {
  const byItem = new Map<string, UnpricedLine>();
  for (const line of lines) {
    // A piece made wider is one of its own kind.
    const kind = `${line.item} ${line.name}`;
    const before = byItem.get(kind);
    byItem.set(
      kind,
      before
        ? { ...before, quantity: before.quantity + line.quantity, marks: [...before.marks, ...line.marks] }
        : line,
    );
  }
  return [...byItem.values()];
};

const pieceLines = (
  run: QuotedRun,
  { pieces }: FitAlternative,
  range: StockRange,
  marks: PieceMarks,
): readonly UnpricedLine[] => {
  const items = new Map(range.items.map((item) => [item.id, item]));
  return pieces
    .map(({ item, widenedMm }, index) => ({ item, widenedMm, mark: marks.pieces[index] ?? '' }))
    .sort((one, other) => (one.mark < other.mark ? -1 : 1))
    .map(({ item: id, widenedMm, mark }) => {
      const item = items.get(id);
      const wider =
        item && widenedMm !== undefined ? widenedItem(range, item, widenedMm, run.problem.depthMm) : null;
      return {
        run: run.name,
        kind: 'piece',
        marks: [mark],
        item: id,
        name: wider?.name ?? item?.name ?? id,
        quantity: 1,
        price: fixedPrice(wider ? (wider.price ?? undefined) : item?.price),
        note: wider ? 'In place of a made-to-measure module beside it' : '',
      };
    });
};

/** Corner units cost what the range says; a wedge is made to measure and costs what the range's rule for that says. */
const cornerLines = (
  run: QuotedRun,
  { corners }: FitAlternative,
  range: StockRange,
  marks: PieceMarks,
): readonly UnpricedLine[] =>
  corners.flatMap(({ treatment, item = '' }, index): UnpricedLine[] => {
    if (treatment !== 'corner-unit' && treatment !== 'mitre') return [];
    const unit = range.cornerUnits.find(({ id }) => id === item);
    const wedge = wedgePrice(range, run.problem, index);
    const shared = { run: run.name, marks: [marks.corners[index] ?? ''], item, quantity: 1 };
    return treatment === 'mitre'
      ? [
          {
            ...shared,
            kind: 'corner-wedge',
            name: 'Corner wedge, made to measure',
            price: wedge.price,
            note: wedge.note,
          },
        ]
      : [
          {
            ...shared,
            kind: 'corner-unit',
            name: unit?.name ?? item,
            price: fixedPrice(unit?.price),
            note: '',
          },
        ];
  });

/** Wedges between the pieces of an arc: alike where they open alike, to the millimetre. */
const arcWedgeLines = (
  run: QuotedRun,
  { wedges = [] }: FitAlternative,
  range: StockRange,
  marks: PieceMarks,
): readonly UnpricedLine[] =>
  wedges.map((wedge, index) => {
    const { price, note } = arcWedgePrice(range, wedge);
    return {
      run: run.name,
      kind: 'corner-wedge',
      marks: [marks.wedges[index] ?? ''],
      item: '',
      name: arcWedgeName(wedge),
      quantity: 1,
      price,
      note,
    };
  });

/** The lines of one fit of a run: pieces by stock item, corners, leftovers, and the extras that go with them. */
export const fitLines = (
  run: QuotedRun,
  range: StockRange,
  alternative: FitAlternative = run.alternative,
): readonly UnpricedLine[] => {
  const marks = pieceMarks(run.number, alternative);
  const corners = cornerLines(run, alternative, range, marks);
  const isWedge = ({ kind }: UnpricedLine) => kind === 'corner-wedge';
  return [
    ...joined(pieceLines(run, alternative, range, marks)),
    ...joined(corners.filter((line) => !isWedge(line))),
    ...corners.filter(isWedge),
    ...joined(arcWedgeLines(run, alternative, range, marks)),
    ...alternative.leftovers.flatMap((_, index) => {
      const line = leftoverLine({ run, alternative, range, index, mark: marks.leftovers[index] ?? '' });
      return line ? [line] : [];
    }),
    ...zoneLines(run, range),
    ...extraLines(run, extrasOfRun(run.problem, alternative, range, marks), range),
  ];
};
