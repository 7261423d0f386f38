import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { type Money, moneyOf } from '../units/money.ts';
import { fitLines } from './fitLines.ts';
import { wideningOffer } from './leftoverLine.ts';
import { pieceMarks } from './pieceMarks.ts';
import type { QuotedRun } from './quotedRun.ts';
import { priceLine, type QuoteLine } from './quoteLine.ts';
import { type QuoteSettings, validUntil } from './quoteSettings.ts';
import { type QuoteTotals, quoteTotals, ROUNDING_RULE } from './quoteTotals.ts';

/** A run fitted another way: what it would change. */
export interface QuoteOption {
  readonly run: string;
  /** From A, in the order of the fit's alternatives; A is what is quoted. */
  readonly letter: string;
  readonly isQuoted: boolean;
  readonly reason: string;
  readonly pieces: number;
  readonly madeToMeasure: number;
  readonly leftoverMm: number;
  /** The lines of this run with this fit. */
  readonly goods: Money;
  /** The whole quote with this fit of this run and all other runs as quoted. */
  readonly total: Money;
  /** `total` less the quoted total. */
  readonly difference: Money;
  /** Lines of this fit without a price: sums leave them out. */
  readonly withoutPrice: number;
}

/** A quote as data: every amount exact to the minor unit. */
export interface Quote {
  readonly currency: string;
  readonly settings: QuoteSettings;
  readonly validUntil: string;
  readonly lines: readonly QuoteLine[];
  readonly totals: QuoteTotals;
  /** Lines without a price: shown and named, in no sum. A quote with any of them is not complete. */
  readonly withoutPrice: readonly QuoteLine[];
  readonly rounding: string;
  readonly assumptions: readonly string[];
  readonly exclusions: readonly string[];
  readonly questions: readonly string[];
  readonly options: readonly QuoteOption[];
  /** Made-to-measure modules that a wider module beside them could save. */
  readonly offers: readonly string[];
}

const letterAt = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + (index % 26));

const amountsOf = (lines: readonly QuoteLine[]): readonly Money[] =>
  lines.flatMap(({ amount }) => (amount ? [amount] : []));

const closingAssumptions = (run: QuotedRun): readonly string[] => {
  const marks = pieceMarks(run.number, run.alternative);
  return run.alternative.leftovers.flatMap(({ verdict, widthMm }, index) =>
    verdict === 'closes'
      ? [
          `${marks.leftovers[index]}: ${Math.round(widthMm * 10) / 10} mm closes within the drawing’s uncertainty; no filler is priced.`,
        ]
      : [],
  );
};

const wideningOffers = (run: QuotedRun, range: StockRange): readonly string[] => {
  const { alternative } = run;
  const marks = pieceMarks(run.number, alternative);
  return alternative.leftovers.flatMap((_, index) => {
    const offer = wideningOffer({ run, alternative, range, index, mark: marks.leftovers[index] ?? '' });
    return offer ? [offer] : [];
  });
};

/** What is left out where no amount is given for it. */
const missingAmounts = ({ freightMinor, installationMinor, tax }: QuoteSettings): readonly string[] => [
  ...(freightMinor === null ? ['Freight and unloading.'] : []),
  ...(installationMinor === null ? ['Installation.'] : []),
  ...(tax === null ? ['Tax: all prices are without it.'] : []),
];

/**
 * The quote of fitted runs: lines from each run's fit and extras, discount, freight, installation and tax, with what it
 * takes for granted, leaves out and asks, and each run's other fits side by side. Reads no clock: the date comes in the
 * settings.
 *
 * @param alsoAsked open questions from elsewhere: of the way in, of the job.
 */
export const quoteOf = (
  runs: readonly QuotedRun[],
  range: StockRange,
  settings: QuoteSettings,
  alsoAsked: readonly string[] = [],
): Quote => {
  const { currency } = range;
  const linesOf = (run: QuotedRun, alternative: FitAlternative): readonly QuoteLine[] =>
    fitLines(run, range, alternative).map((line) => priceLine(line, currency));
  const quoted = runs.map((run) => linesOf(run, run.alternative));
  const lines = quoted.flat();
  const totals = quoteTotals(amountsOf(lines), settings, currency);
  const withoutPrice = lines.filter(({ amount }) => amount === null);

  const options = runs.flatMap((run, at): QuoteOption[] => {
    if (run.others.length === 0) return [];
    return [run.alternative, ...run.others].map((alternative, index): QuoteOption => {
      const own = linesOf(run, alternative);
      const swapped = quoted.flatMap((other, place) => (place === at ? own : other));
      const { total } = quoteTotals(amountsOf(swapped), settings, currency);
      return {
        run: run.name,
        letter: letterAt(index),
        isQuoted: index === 0,
        reason: alternative.reason,
        pieces: alternative.score.pieces,
        madeToMeasure: alternative.score.madeToMeasure,
        leftoverMm: alternative.score.leftoverMm,
        goods: quoteTotals(amountsOf(own), { ...settings, discountBasisPoints: 0 }, currency).goods,
        total,
        difference: moneyOf(total.minor - totals.total.minor, currency),
        withoutPrice: own.filter(({ amount }) => amount === null).length,
      };
    });
  });

  return {
    currency,
    settings,
    validUntil: validUntil(settings.date, settings.validDays),
    lines,
    totals,
    withoutPrice,
    rounding: ROUNDING_RULE,
    assumptions: [
      ...settings.assumptions,
      ...(range.invented
        ? [`The stock range “${range.name}” is invented: nobody sells at these prices.`]
        : []),
      ...runs.flatMap(closingAssumptions),
    ],
    exclusions: [...settings.exclusions, ...missingAmounts(settings)],
    questions: [
      ...runs.flatMap(({ name, questions }) => questions.map((question) => `${name}: ${question}`)),
      ...alsoAsked,
      ...withoutPrice.map(
        ({ run, marks, name }) =>
          `${run}, ${marks.join(', ')}: ${name} has no price in the range. What does it cost?`,
      ),
    ],
    options,
    offers: runs.flatMap((run) => wideningOffers(run, range)),
  };
};
