import { type KeyboardEvent, useId, useState } from 'react';

/** A text or a day of the job. What is typed is taken when the field is left or Enter is pressed; Escape gives it up. */
export const JobField = (props: {
  readonly label: string;
  readonly value: string;
  readonly type?: 'text' | 'date';
  readonly most?: number;
  /** A field that may not be empty keeps what it had. */
  readonly isNeeded?: boolean;
  readonly isLong?: boolean;
  /** Enter begins a new line; what is typed is taken when the field is left. */
  readonly keepsLines?: boolean;
  readonly placeholder?: string;
  readonly onChange: (value: string) => void;
}) => {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const { type = 'text' } = props;
  const take = () => {
    const value = typed?.trim() ?? '';
    if (typed !== null && value !== props.value && !(props.isNeeded && value === '')) props.onChange(value);
    setTyped(null);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLElement>) => {
    if (event.key === 'Enter' && !props.keepsLines && !(props.isLong && event.shiftKey)) {
      event.preventDefault();
      take();
    } else if (event.key === 'Escape') setTyped(null);
  };
  const shared = {
    id,
    value: typed ?? props.value,
    maxLength: props.most,
    placeholder: props.placeholder,
    onBlur: take,
    onKeyDown,
  };
  return (
    <label className="field" htmlFor={id}>
      <span>{props.label}</span>
      {props.isLong ? (
        <textarea
          {...shared}
          rows={props.keepsLines ? 5 : 2}
          onChange={(event) => setTyped(event.target.value)}
        />
      ) : (
        <input {...shared} type={type} onChange={(event) => setTyped(event.target.value)} />
      )}
    </label>
  );
};
