import { useState } from 'react';

/** A name that can be typed anew. */
export const NameField = (props: {
  readonly name: string;
  readonly label?: string;
  readonly onChange: (name: string) => void;
}) => {
  const [text, setText] = useState<string | null>(null);
  const take = () => {
    const typed = text?.trim();
    setText(null);
    if (typed && typed !== props.name) props.onChange(typed);
  };
  return (
    <label className="field">
      <span>{props.label ?? 'Name'}</span>
      <input
        value={text ?? props.name}
        maxLength={120}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
          if (event.key === 'Escape') setText(null);
        }}
      />
    </label>
  );
};
