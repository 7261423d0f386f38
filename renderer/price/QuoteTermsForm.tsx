import type { QuoteTerms } from '../../src/document/issueSettings.ts';
import { standardAssumptions, standardExclusions } from '../../src/quote/quoteSettings.ts';
import { readDecimal, scaleToWhole } from '../../src/units/decimal.ts';
import { formatMoney, moneyOf, parseMoney } from '../../src/units/money.ts';
import { JobField } from '../rail/JobField.tsx';
import { AmountField, type Taken } from './AmountField.tsx';

/** `12.5` or `12,5 %` as whole basis points. */
const readPercent = (text: string): Taken<number> => {
  const read = readDecimal(text.replace(/\s*%$/, ''), { comma: 'decimal', dot: 'decimal' });
  const refused = {
    ok: false,
    message: `"${text}" is no share from 0 to 100 %, in hundredths at most.`,
  } as const;
  if (!read.ok) return refused;
  const exact = read.value.numerator * 10_000n;
  if (exact % (read.value.denominator * 100n) !== 0n) return refused;
  const value = Number(scaleToWhole(read.value, 100n));
  return value >= 0 && value <= 10_000 ? { ok: true, value } : refused;
};

const percentShown = (basisPoints: number): string => `${basisPoints / 100} %`;

const readAmount =
  (currency: string) =>
  (text: string): Taken<number> => {
    const parsed = parseMoney(text.replace(new RegExp(`^${currency}\\s*`), ''), currency);
    if (!parsed.ok) return { ok: false, message: parsed.message };
    return parsed.money.minor < 0
      ? { ok: false, message: 'Type an amount of zero or more.' }
      : { ok: true, value: parsed.money.minor };
  };

const readDays = (text: string): Taken<number> => {
  const value = Number(text.replace(/\s*days?$/, ''));
  return Number.isInteger(value) && value >= 1 && value <= 730
    ? { ok: true, value }
    : { ok: false, message: 'Whole days, from 1 to 730.' };
};

/** One sentence to a line. */
const Sentences = (props: {
  readonly label: string;
  readonly sentences: readonly string[];
  readonly onChange: (sentences: readonly string[]) => void;
}) => (
  <JobField
    label={props.label}
    value={props.sentences.join('\n')}
    most={20_000}
    isLong
    keepsLines
    onChange={(text) =>
      props.onChange(
        text
          .split('\n')
          .map((line) => line.trim().slice(0, 500))
          .filter(Boolean)
          .slice(0, 50),
      )
    }
  />
);

/** The terms of the quote: how long it holds, what is taken off and added, what it takes for granted and leaves out. */
export const QuoteTermsForm = (props: {
  readonly terms: QuoteTerms;
  readonly currency: string;
  readonly onChange: (terms: QuoteTerms) => void;
}) => {
  const { terms, currency } = props;
  const change = (changes: Partial<QuoteTerms>) => props.onChange({ ...terms, ...changes });
  const money = (minor: number | null) => (minor === null ? '' : formatMoney(moneyOf(minor, currency)));
  return (
    <>
      <div className="pair">
        <JobField
          label="Quote number"
          value={terms.number}
          most={60}
          onChange={(number) => change({ number })}
        />
        <AmountField
          label="Holds for"
          shown={`${terms.validDays} days`}
          emptyWords=""
          read={readDays}
          onChange={(validDays) => change({ validDays: validDays ?? 30 })}
        />
      </div>
      <div className="pair">
        <AmountField
          label="Discount on goods"
          shown={terms.discountBasisPoints === 0 ? '' : percentShown(terms.discountBasisPoints)}
          emptyWords="none"
          read={readPercent}
          onChange={(discountBasisPoints) => change({ discountBasisPoints: discountBasisPoints ?? 0 })}
        />
        <AmountField
          label={terms.tax ? `Tax (${terms.tax.name})` : 'Tax'}
          shown={terms.tax ? percentShown(terms.tax.basisPoints) : ''}
          emptyWords="without tax"
          read={readPercent}
          onChange={(basisPoints) =>
            change({
              tax: basisPoints === null ? null : { name: terms.tax?.name ?? 'Value added tax', basisPoints },
            })
          }
        />
      </div>
      {terms.tax && (
        <JobField
          label="The tax’s name"
          value={terms.tax.name}
          most={40}
          isNeeded
          onChange={(name) => terms.tax && change({ tax: { ...terms.tax, name } })}
        />
      )}
      <div className="pair">
        <AmountField
          label="Freight"
          shown={money(terms.freightMinor)}
          emptyWords="not included"
          read={readAmount(currency)}
          onChange={(freightMinor) => change({ freightMinor })}
        />
        <AmountField
          label="Installation"
          shown={money(terms.installationMinor)}
          emptyWords="not included"
          read={readAmount(currency)}
          onChange={(installationMinor) => change({ installationMinor })}
        />
      </div>
      <Sentences
        label="Takes for granted, a sentence to a line"
        sentences={terms.assumptions}
        onChange={(assumptions) => change({ assumptions })}
      />
      <Sentences
        label="Leaves out, a sentence to a line"
        sentences={terms.exclusions}
        onChange={(exclusions) => change({ exclusions })}
      />
      {(terms.assumptions !== standardAssumptions || terms.exclusions !== standardExclusions) && (
        <button
          type="button"
          className="word-button"
          onClick={() => change({ assumptions: standardAssumptions, exclusions: standardExclusions })}
        >
          Back to the usual sentences
        </button>
      )}
    </>
  );
};
