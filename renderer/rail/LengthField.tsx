import { useState } from 'react';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { parseLength } from '../../src/units/length.ts';

/** A length to read and to type anew, in any unit. Nothing is taken until it is a length within its bounds. */
export const LengthField = (props: {
  readonly label: string;
  /** Said after the label to those who hear it, where the eye sees from its place what it is of. */
  readonly ofWhat?: string;
  readonly lengthMm: number | null;
  readonly unit: DisplayUnit;
  readonly leastMm?: number;
  readonly mostMm?: number;
  /** When given, an empty field means null. */
  readonly emptyWords?: string;
  readonly onChange: (lengthMm: number | null) => void;
}) => {
  const [text, setText] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const shown =
    props.lengthMm === null
      ? ''
      : formatLength(props.lengthMm, {
          unit: props.unit,
          precision: props.unit === 'ft-in' ? 16 : Number.isInteger(props.lengthMm) ? 0 : 1,
        });
  const take = () => {
    if (text === null || text.trim() === shown) {
      setText(null);
      setRefusal(null);
      return;
    }
    if (text.trim() === '' && props.emptyWords !== undefined) {
      setText(null);
      setRefusal(null);
      props.onChange(null);
      return;
    }
    const { leastMm = 0, mostMm = 1_000_000 } = props;
    // A level may lie below the datum.
    const [, sign = '', size = text] = (leastMm < 0 && /^\s*([-\u2212+])\s*(.*)$/.exec(text)) || [];
    const parsed = parseLength(size, { defaultUnit: props.unit === 'mm' ? 'mm' : 'in' });
    if (!parsed.ok) return setRefusal(parsed.message);
    const lengthMm = sign === '' || sign === '+' ? parsed.lengthMm : -parsed.lengthMm;
    if (lengthMm < leastMm || lengthMm > mostMm)
      return setRefusal(
        `Between ${formatLength(leastMm, { unit: props.unit })} and ${formatLength(mostMm, { unit: props.unit })}.`,
      );
    setText(null);
    setRefusal(null);
    props.onChange(lengthMm);
  };
  return (
    <label className="field">
      <span>
        {props.label}
        {props.ofWhat && <span className="visually-hidden">{props.ofWhat}</span>}
      </span>
      <input
        value={text ?? shown}
        placeholder={props.emptyWords}
        aria-invalid={refusal !== null}
        onFocus={(event) => {
          setText(shown);
          event.currentTarget.select();
        }}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') {
            setText(null);
            setRefusal(null);
            event.currentTarget.blur();
          }
        }}
      />
      {refusal && (
        <span className="alert" role="alert">
          {refusal}
        </span>
      )}
    </label>
  );
};
