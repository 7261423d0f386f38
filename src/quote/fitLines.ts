import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { extraLines } from './extraLines.ts';
import { extrasOfRun } from './extras.ts';
import { leftoverLine } from './leftoverLine.ts';
import { type PieceMarks, pieceMarks } from './pieceMarks.ts';
import type { QuotedRun } from './quotedRun.ts';
import { fixedPrice, type UnpricedLine } from './quoteLine.ts';
import { wedgePrice } from './wedgePrice.ts';

/** Equal stock pieces of one run become one line, with all their marks. */
const joined = (lines: readonly UnpricedLine[]): readonly UnpricedLine[] => {
  const byItem = new Map<string, UnpricedLine>();
  for (const line of lines) {
    const before = byItem.get(line.item);
    byItem.set(
      line.item,
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
    .map(({ item }, index) => ({ item, mark: marks.pieces[index] ?? '' }))
    .sort((one, other) => (one.mark < other.mark ? -1 : 1))
    .map(({ item, mark }) => ({
      run: run.name,
      kind: 'piece',
      marks: [mark],
      item,
      name: items.get(item)?.name ?? item,
      quantity: 1,
      price: fixedPrice(items.get(item)?.price),
      note: '',
    }));
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
    ...alternative.leftovers.flatMap((_, index) => {
      const line = leftoverLine({ run, alternative, range, index, mark: marks.leftovers[index] ?? '' });
      return line ? [line] : [];
    }),
    ...extraLines(run, extrasOfRun(run.problem, alternative, range, marks), range),
  ];
};
