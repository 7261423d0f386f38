import './RulesForm.css';
import { type StockRule, stockRuleGroups } from '../../src/stock/stockRules.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { CellInput } from './CellInput.tsx';
import { cellOf, partsOf } from './listCell.ts';
import { PartsField } from './PartsField.tsx';

/** The unit that stands behind a rule's figure. */
const unitWords = ({ kind }: StockRule, unit: DisplayUnit, currency: string): string =>
  ({
    length: unit === 'mm' ? 'mm' : '',
    price: currency,
    'price-per-mm': currency,
    days: 'days',
    count: '',
    mass: 'kg',
    'frames-by-width': '',
  })[kind];

/** The range's rules: what fillers and made-to-measure pieces may be, how high things stand, what extras cost. */
export const RulesForm = (props: {
  readonly rules: Readonly<Record<string, string>>;
  readonly faults: ReadonlyMap<string, string>;
  readonly unit: DisplayUnit;
  readonly currency: string;
  readonly onRule: (path: string, text: string) => void;
}) => (
  <section className="rules" aria-label="Rules of the range">
    <h3>Rules</h3>
    <div className="rule-groups">
      {stockRuleGroups.map(({ title, rules }) => (
        <fieldset key={title} className="rule-group">
          <legend>{title}</legend>
          {rules.map((rule) => {
            const text = props.rules[rule.path] ?? '';
            const fault = props.faults.get(rule.path);
            if (rule.kind === 'frames-by-width')
              return (
                <PartsField
                  key={rule.path}
                  title={rule.words}
                  one="width"
                  unit={props.unit}
                  columns={[
                    { words: 'Up to', kind: 'length' },
                    { words: 'Frames', kind: 'number' },
                  ]}
                  parts={partsOf(text)}
                  fresh={['', '']}
                  fault={fault}
                  onParts={(parts) => props.onRule(rule.path, cellOf(parts))}
                />
              );
            return (
              <div key={rule.path} className="rule" data-rule={rule.path}>
                <span aria-hidden="true">{rule.words}</span>
                <CellInput
                  label={`${title}: ${rule.words}`}
                  text={text}
                  fault={fault}
                  unit={rule.kind === 'length' ? props.unit : undefined}
                  isNumber
                  placeholder={rule.isOptional ? 'none' : undefined}
                  onText={(typed) => props.onRule(rule.path, typed)}
                />
                <span className="quiet" aria-hidden="true">
                  {unitWords(rule, props.unit, props.currency)}
                </span>
                {fault && <p className="alert">{fault}</p>}
              </div>
            );
          })}
        </fieldset>
      ))}
    </div>
  </section>
);
