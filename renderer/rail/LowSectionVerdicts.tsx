import {
  type LowSectionCheck,
  type LowSectionRule,
  lowSectionCaution,
} from '../../src/measure/lowSectionRules.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';

const verdictWords: Readonly<Record<LowSectionRule['verdict'], string>> = {
  met: 'met',
  unsure: 'not sure from this drawing',
  missed: 'not met',
};

const checkWords = (
  { what, asks, neededMm, marginMm, verdict }: LowSectionCheck,
  unit: DisplayUnit,
): string => {
  const length = (mm: number) => formatLength(Math.abs(mm), { unit });
  const asked = `${what} ${asks === 'at-least' ? 'at least' : 'at most'} ${length(neededMm)}`;
  if (verdict === 'unsure') return `${asked}: within the drawing’s uncertainty`;
  return `${asked}: ${marginMm < 0 ? `${length(marginMm)} ${asks === 'at-least' ? 'short' : 'over'}` : `${length(marginMm)} to spare`}`;
};

/** The check that decides a rule: of its worst kind, the one with the least to spare. */
const tightest = ({ checks, verdict }: LowSectionRule): LowSectionCheck | undefined =>
  checks
    .filter((check) => check.verdict === verdict)
    .toSorted((one, other) => one.marginMm - other.marginMm)[0];

/** A low section beside each published rule: the verdict, and by how much; the rule in full on demand. */
export const LowSectionVerdicts = (props: {
  readonly rules: readonly LowSectionRule[];
  readonly unit: DisplayUnit;
}) => (
  <>
    <ul className="rule-lines">
      {props.rules.map((rule) => {
        const check = tightest(rule);
        return (
          <li key={rule.source}>
            <details>
              <summary>
                {rule.source}
                {rule.isFromMemory && <sup>†</sup>}{' '}
                <span className={rule.verdict === 'met' ? 'quiet' : 'alert'}>
                  {verdictWords[rule.verdict]}
                </span>
              </summary>
              <p>
                {rule.name}: {rule.checks.map((one) => checkWords(one, props.unit)).join('; ')}.
                {rule.note && ` ${rule.note}`}
              </p>
            </details>
            {check && <p>{checkWords(check, props.unit)}</p>}
          </li>
        );
      })}
    </ul>
    <p className="caution">{lowSectionCaution} † Figures from memory: look them up before relying on them.</p>
  </>
);
