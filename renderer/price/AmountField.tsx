import { type KeyboardEvent, useState } from 'react';

/** What was typed, taken or refused in words. */
export type Taken<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly message: string };

/** An amount or a share to read and to type anew. Nothing is taken until it reads as one; empty means none. */
export const AmountField = <Value,>(props: {
  readonly label: string;
  readonly shown: string;
  readonly emptyWords: string;
  /** Said after the label to those who hear it, where the eye sees from its place what it is of. */
  readonly ofWhat?: string;
  /** What a screen keyboard shows; decimals where left out. */
  readonly inputMode?: 'decimal' | 'text' | 'numeric';
  readonly read: (text: string) => Taken<Value>;
  /** Null for an emptied field. */
  readonly onChange: (value: Value | null) => void;
}) => {
  const [text, setText] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const reset = () => {
    setText(null);
    setRefusal(null);
  };
  const take = () => {
    if (text === null || text.trim() === props.shown) return reset();
    if (text.trim() === '') {
      reset();
      return props.onChange(null);
    }
    const taken = props.read(text.trim());
    if (!taken.ok) return setRefusal(taken.message);
    reset();
    props.onChange(taken.value);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') take();
    if (event.key === 'Escape') reset();
  };
  return (
    <label className="field">
      <span>
        {props.label}
        {props.ofWhat && <span className="visually-hidden">{props.ofWhat}</span>}
      </span>
      <input
        value={text ?? props.shown}
        placeholder={props.emptyWords}
        inputMode={props.inputMode ?? 'decimal'}
        aria-invalid={refusal !== null}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={onKeyDown}
      />
      {refusal && (
        <span className="alert" role="alert">
          {refusal}
        </span>
      )}
    </label>
  );
};
