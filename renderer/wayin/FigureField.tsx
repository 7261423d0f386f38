import { useState } from 'react';

/** A plain figure to read and to type anew. Nothing is taken until it is a number that the field allows. */
export const FigureField = (props: {
  readonly label: string;
  readonly value: number | null;
  /** When given, the field may be empty, and this is what that means. */
  readonly emptyWords?: string | undefined;
  readonly onChange: (value: number | null) => void;
}) => {
  const [text, setText] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const shown = props.value === null ? '' : String(props.value);
  const settle = (value?: number | null) => {
    setText(null);
    setRefusal(null);
    if (value !== undefined && value !== props.value) props.onChange(value);
  };
  const take = () => {
    const typed = (text ?? shown).trim();
    if (typed === shown) return settle();
    if (typed === '' && props.emptyWords !== undefined) return settle(null);
    const value = Number(typed.replace(',', '.'));
    if (typed === '' || !Number.isFinite(value) || value < 0 || value > 1_000_000)
      return setRefusal('A number, 0 or more.');
    settle(value);
  };
  return (
    <label className="field">
      <span>{props.label}</span>
      <input
        value={text ?? shown}
        inputMode="decimal"
        placeholder={props.emptyWords}
        aria-invalid={refusal !== null}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') settle();
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
