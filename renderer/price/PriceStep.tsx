import './PriceStep.css';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { standardQuoteTerms } from '../../src/quote/quoteSettings.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { formatMoney, type Money, sumMoney } from '../../src/units/money.ts';
import { QuoteTermsForm } from './QuoteTermsForm.tsx';
import type { QuoteInHand } from './quoteInHand.ts';

const Sum = (props: { readonly word: string; readonly amount: Money; readonly isTotal?: boolean }) => (
  <div className={props.isTotal ? 'sum is-total' : 'sum'}>
    <dt>{props.word}</dt>
    <dd>{formatMoney(props.amount)}</dd>
  </div>
);

/** What the bar costs as it is fitted, what the sum lacks, and the terms of the quote. */
export const PriceStep = (props: {
  readonly document: ProjectDocument;
  readonly range: StockRange | null;
  readonly inHand: QuoteInHand | null;
  readonly onCommand: (command: Command) => void;
}) => {
  const { document, range, inHand } = props;
  const terms = document.quoteTerms ?? standardQuoteTerms;
  const quote = inHand?.quote;
  return (
    <>
      {!quote && (
        <p className="step-lead">There is a price once a run is traced on a sheet with a scale and fitted.</p>
      )}
      {quote && (
        <>
          <dl className="sums">
            {[...new Set(quote.lines.map(({ run }) => run))].map((run) => (
              <Sum
                key={run}
                word={run}
                amount={sumMoney(
                  quote.lines.flatMap((line) => (line.run === run && line.amount ? [line.amount] : [])),
                  quote.currency,
                )}
              />
            ))}
            {quote.totals.discount.minor > 0 && (
              <Sum
                word={`Discount, ${quote.settings.discountBasisPoints / 100} % of goods`}
                amount={{ ...quote.totals.discount, minor: -quote.totals.discount.minor }}
              />
            )}
            {quote.totals.freight && <Sum word="Freight and unloading" amount={quote.totals.freight} />}
            {quote.totals.installation && <Sum word="Installation" amount={quote.totals.installation} />}
            {quote.totals.tax && quote.settings.tax && (
              <Sum
                word={`${quote.settings.tax.name}, ${quote.settings.tax.basisPoints / 100} %`}
                amount={quote.totals.tax}
              />
            )}
            <Sum
              word={quote.totals.tax ? 'Total' : 'Total without tax'}
              amount={quote.totals.total}
              isTotal
            />
          </dl>
          {quote.withoutPrice.length > 0 && (
            <div className="not-summed" role="note">
              <p className="alert">Not in the sum: the range has no price for</p>
              <ul>
                {quote.withoutPrice.map((line) => (
                  <li key={`${line.run} ${line.kind} ${line.marks.join(' ')}`}>
                    {line.run}, {line.marks.join(', ')}: {line.name}
                  </li>
                ))}
              </ul>
            </div>
          )}
        </>
      )}
      {inHand && inHand.lacking.length > 0 && (
        <div className="not-summed" role="note">
          <p className="alert">Not in the sum: these runs have no fit</p>
          <ul>
            {inHand.lacking.map(({ name, why }) => (
              <li key={name}>
                {name}: {why}
              </li>
            ))}
          </ul>
        </div>
      )}
      {range?.invented && (
        <p className="step-lead">The range “{range.name}” is invented: nobody sells at these prices.</p>
      )}
      {range && (
        <details className="job-papers">
          <summary>
            Terms of the quote{' '}
            <span className="job-count">{document.quoteTerms ? 'set for this project' : 'as usual'}</span>
          </summary>
          <QuoteTermsForm
            terms={terms}
            currency={range.currency}
            onChange={(quoteTerms) => props.onCommand({ type: 'set-quote-terms', quoteTerms })}
          />
        </details>
      )}
    </>
  );
};
