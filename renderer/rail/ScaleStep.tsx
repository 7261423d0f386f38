import { useState } from 'react';
import type { ReferenceId } from '../../src/document/ids.ts';
import type { AcceptedScale } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { ScaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { formatLength } from '../../src/units/formatLength.ts';
import { parseLength } from '../../src/units/length.ts';
import type { SheetReading } from '../project/useSheetReading.ts';
import { Length } from './Length.tsx';
import { SheetEvidence } from './SheetEvidence.tsx';
import { ratioWords } from './scaleWords.ts';

const signed = (mm: number, unit: DisplayUnit) =>
  `${mm >= 0 ? '+' : ''}${formatLength(mm, { unit, precision: unit === 'mm' ? 1 : 16 })}`;

/** One picked dimension: its length, which can be typed anew, and how far the scale is off it. */
const ReferenceLine = (props: {
  readonly entry: ScaleOfSheet['references'][number];
  readonly unit: DisplayUnit;
  readonly onChange: (lengthMm: number, typed: string) => void;
  readonly onRemove: () => void;
}) => {
  const { reference, residual } = props.entry;
  const [text, setText] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const take = () => {
    if (text === null || text.trim() === reference.typed) return setText(null);
    const parsed = parseLength(text, { defaultUnit: props.unit === 'mm' ? 'mm' : 'in' });
    if (!parsed.ok || parsed.lengthMm <= 0)
      return setRefusal(parsed.ok ? 'A length must be more than nothing.' : parsed.message);
    setRefusal(null);
    setText(null);
    props.onChange(parsed.lengthMm, text.trim());
  };
  return (
    <li>
      <input
        className="bare-input"
        aria-label="Length of this known dimension"
        value={
          text ??
          formatLength(reference.lengthMm, {
            unit: props.unit,
            precision: props.unit === 'ft-in' ? 16 : Number.isInteger(reference.lengthMm) ? 0 : 1,
          })
        }
        onFocus={() => setText(reference.typed)}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
          if (event.key === 'Escape') {
            setText(null);
            setRefusal(null);
          }
        }}
      />
      <button type="button" className="word-button" onClick={props.onRemove}>
        Remove
      </button>
      <span className="line-note">
        {refusal ? (
          <span className="alert">{refusal}</span>
        ) : (
          <>off by {signed(residual.residualMm, props.unit)} at this scale</>
        )}
      </span>
    </li>
  );
};

/** The scale of the sheet in work: picked dimensions with their residuals, and the sheet’s own evidence. */
export const ScaleStep = (props: {
  readonly scale: ScaleOfSheet | null;
  readonly reading: SheetReading;
  readonly unit: DisplayUnit;
  readonly onPick: () => void;
  readonly onAccept: (scale: AcceptedScale) => void;
  readonly onForget: () => void;
  readonly onShow: (points: readonly PaperPoint[]) => void;
  readonly onChangeReference: (referenceId: ReferenceId, lengthMm: number, typed: string) => void;
  readonly onRemoveReference: (referenceId: ReferenceId) => void;
}) => {
  const { scale } = props;
  return (
    <>
      {scale?.source === 'picked' && (
        <>
          <h3>Known dimensions</h3>
          <ul className="lines">
            {scale.references.map((entry) => (
              <ReferenceLine
                key={entry.reference.id}
                entry={entry}
                unit={props.unit}
                onChange={(lengthMm, typed) => props.onChangeReference(entry.reference.id, lengthMm, typed)}
                onRemove={() => props.onRemoveReference(entry.reference.id)}
              />
            ))}
          </ul>
          {scale.warnings.map((warning) => (
            <p key={warning.code} className="alert">
              {warning.message}
            </p>
          ))}
          {scale.ratioX !== undefined && scale.ratioY !== undefined && (
            <p className="step-lead">
              Across {ratioWords(scale.ratioX)}, up {ratioWords(scale.ratioY)}
            </p>
          )}
        </>
      )}
      {scale?.source === 'accepted' && (
        <p className="step-lead">
          Taken over from the sheet’s own evidence.{' '}
          <button type="button" className="word-button" onClick={props.onForget}>
            Forget it
          </button>
        </p>
      )}
      <SheetEvidence
        reading={props.reading}
        scale={scale}
        unit={props.unit}
        onAccept={props.onAccept}
        onShow={props.onShow}
      />
      <div className="acts">
        <button type="button" className="plain-button" onClick={props.onPick}>
          {scale?.source === 'picked' ? 'Pick another dimension' : 'Pick a known dimension'}
        </button>
      </div>
      {scale && (
        <p className="step-lead">
          10 m on this sheet is sure to{' '}
          <Length lengthMm={scale.relativeUncertainty * 10_000} unit={props.unit} />.
        </p>
      )}
    </>
  );
};
