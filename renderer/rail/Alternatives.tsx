import { useRef } from 'react';
import type { Run } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { groupDigits } from '../../src/units/digitGroups.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { differenceFrom, figuresOf } from '../fitting/alternativeFigures.ts';
import { sameLayout } from '../fitting/sameLayout.ts';
import type { ReadyRunFit } from '../fitting/useRunFits.ts';

const orderWords: Readonly<Record<Run['order'], string>> = {
  best: 'Best first',
  pieces: 'Fewest pieces',
  price: 'Lowest price of pieces',
  position: 'Stations where drawn',
};

/** `Fewest joints: the fewest pieces without another made-to-measure one …` in its first words. */
const titleOf = (reason: string): string =>
  (reason.split(/[:.]/)[0] ?? reason)
    .replace(/ without another .*$/, '')
    .replace(/\b(corner|first|second)-(unit|through)\b/g, '$1 $2');

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** The best few fits side by side: what each comes to, and what it has that the one shown has not. */
export const Alternatives = (props: {
  readonly run: Run;
  readonly fit: ReadyRunFit;
  readonly shown: FitAlternative | null;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
  readonly onOrder: (order: Run['order']) => void;
  readonly onKeep: (alternative: FitAlternative, explanation: string) => void;
  readonly onRelease: () => void;
  readonly onTry: (alternative: FitAlternative | null) => void;
}) => {
  const { fit, shown, range, unit } = props;
  const { answer, problem } = fit;
  const keptNow = fit.kept?.isCurrent ? fit.kept.alternative : null;
  const listed = [
    ...(keptNow && !answer.alternatives.some((one) => sameLayout(keptNow, one)) ? [keptNow] : []),
    ...answer.alternatives,
  ];
  const base = shown && figuresOf(problem, shown, range);
  const looked = useRef<FitAlternative | null>(null);
  const look = (alternative: FitAlternative | null) => {
    if (looked.current === alternative) return;
    looked.current = alternative;
    props.onTry(alternative);
  };
  return (
    <section className="alternatives" aria-label="Alternatives">
      <label className="field">
        <span>In order of</span>
        <select
          value={props.run.order}
          onChange={(event) => {
            const order = (Object.keys(orderWords) as Run['order'][]).find(
              (one) => one === event.target.value,
            );
            if (order) props.onOrder(order);
          }}
        >
          {Object.entries(orderWords).map(([order, words]) => (
            <option key={order} value={order}>
              {words}
            </option>
          ))}
        </select>
      </label>
      {listed.length > 0 && (
        <table>
          <caption className="visually-hidden">Fits to choose from, compared with the one shown</caption>
          <thead>
            <tr>
              <th scope="col">Left over</th>
              <th scope="col">Joints</th>
              <th scope="col">Pieces</th>
              <th scope="col" title="Pieces, leftovers and extras at the range’s prices, before tax">
                {range.currency}
              </th>
            </tr>
          </thead>
          {listed.map((alternative) => {
            const figures = figuresOf(problem, alternative, range);
            const isShown = sameLayout(shown, alternative);
            const isKept = sameLayout(keptNow, alternative);
            const differs =
              base && !isShown ? differenceFrom(base, figures, { unit, currency: range.currency }) : [];
            return (
              <tbody
                key={`${alternative.reason} ${JSON.stringify(alternative.pieces)}`}
                className={isShown ? 'is-selected' : undefined}
                onPointerMove={({ movementX, movementY }) => {
                  // After one is kept the rows move under a pointer that lies still: that looks at nothing.
                  if (movementX !== 0 || movementY !== 0) look(alternative);
                }}
                onPointerLeave={() => look(null)}
                onFocus={() => look(alternative)}
                onBlur={() => look(null)}
              >
                <tr>
                  <th scope="rowgroup" colSpan={3} title={alternative.reason}>
                    {titleOf(alternative.reason)}
                  </th>
                  <td>
                    {isKept ? (
                      <button
                        type="button"
                        className="word-button"
                        aria-label={`Release the kept fit: ${titleOf(alternative.reason)}`}
                        onClick={props.onRelease}
                      >
                        Release
                      </button>
                    ) : (
                      <button
                        type="button"
                        className="word-button"
                        onClick={() => props.onKeep(alternative, answer.explanation)}
                      >
                        Keep
                      </button>
                    )}
                  </td>
                </tr>
                <tr className="figures">
                  <td>{formatLength(figures.leftoverMm, { unit })}</td>
                  <td>{figures.joints}</td>
                  <td>{figures.pieces}</td>
                  <td>{groupDigits(String(Math.round(figures.price)))}</td>
                </tr>
                <tr>
                  <td colSpan={4} className="differs">
                    {isKept ? 'Kept. ' : ''}
                    {isShown
                      ? isKept
                        ? ''
                        : 'As shown. '
                      : `${sentence(differs.join(', ') || 'comes to the same, laid out otherwise')}. `}
                    {figures.unpriced > 0 &&
                      (isShown || figures.unpriced !== base?.unpriced) &&
                      `${figures.unpriced === 1 ? 'One line has' : `${figures.unpriced} lines have`} no price in this range.`}
                  </td>
                </tr>
              </tbody>
            );
          })}
        </table>
      )}
      {!fit.hasAlternatives && (
        <p className="step-lead" role="status">
          Looking for others …
        </p>
      )}
    </section>
  );
};
