import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { leftoverPrice } from '../../src/quote/leftoverPrice.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { verdictWord } from '../../src/quote/schedule.ts';
import { wideningFor } from '../../src/quote/widening.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { wholePriceWords } from '../fitting/alternativeFigures.ts';
import { shortNameOf } from '../fitting/pieceNames.ts';
import { Length } from './Length.tsx';

/** What closing a leftover costs, and the module that could be made wider instead. */
const priceWords = (
  given: {
    readonly alternative: FitAlternative;
    readonly problem: FitProblem;
    readonly range: StockRange;
    readonly unit: DisplayUnit;
  },
  index: number,
): string => {
  const { alternative, problem, range, unit } = given;
  const leftover = alternative.leftovers[index];
  if (!leftover || leftover.verdict === 'closes') return '';
  const price = leftoverPrice(range, leftover.verdict, leftover.widthMm);
  const cost =
    price === null ? 'not made at this width by this range' : `${wholePriceWords(price, range.currency)}`;
  const widening = wideningFor(range, alternative, index, problem.allowances?.jointMm ?? 0);
  const module = widening && alternative.pieces[widening.piece];
  return widening && module
    ? `${cost}; or ${shortNameOf(range, module.item)} made ${formatLength(widening.widthMm, { unit })} for ${wholePriceWords(widening.morePrice, range.currency)} more`
    : cost;
};

/** The leftovers of a fit: mark, width, place, verdict and price, each in words. */
export const Leftovers = (props: {
  readonly alternative: FitAlternative;
  readonly problem: FitProblem;
  readonly range: StockRange;
  readonly runNumber: number;
  readonly unit: DisplayUnit;
  readonly highlighted: PartName | null;
  readonly onHighlight: (part: PartName | null) => void;
}) => {
  const { alternative, unit } = props;
  const marks = pieceMarks(props.runNumber, alternative);
  if (alternative.leftovers.length === 0) return <p className="step-lead">Nothing is left over.</p>;
  return (
    <ul className="lines">
      {alternative.leftovers.map((leftover, index) => {
        const price = priceWords(props, index);
        return (
          <li
            key={marks.leftovers[index]}
            className={props.highlighted === `leftover:${index}` ? 'is-lit' : undefined}
            onPointerEnter={() => props.onHighlight(`leftover:${index}`)}
            onPointerLeave={() => props.onHighlight(null)}
          >
            <span>
              <b>{marks.leftovers[index]}</b> <span className="alert">{verdictWord(leftover.verdict)}</span>
            </span>
            <Length lengthMm={leftover.widthMm} unit={unit} />
            <span className="line-note">
              straight {leftover.straight + 1}, {formatLength(leftover.fromMm, { unit })} to{' '}
              {formatLength(leftover.toMm, { unit })}
              {price && `; ${price}`}
              {leftover.confirmed ? '' : '; not sure from this drawing, measure on site'}
            </span>
          </li>
        );
      })}
    </ul>
  );
};
