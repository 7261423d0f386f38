import './CellInput.css';
import { useState } from 'react';
import { readFigure } from '../../src/stock/readFigure.ts';
import { figure } from '../../src/stock/stockCells.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { parseLength } from '../../src/units/length.ts';

/** A stored figure of millimetres as it is read and typed in the unit that the window shows. */
const shownLength = (text: string, unit: DisplayUnit): string => {
  if (unit === 'mm' || text === '') return text;
  const reading = readFigure(text);
  return reading.ok ? formatLength(reading.value, { unit }) : text;
};

/** A typed length as a figure of millimetres; as it is typed where it is no length, so that nothing is lost. */
const typedLength = (text: string, unit: DisplayUnit): string => {
  if (text === '' || (unit === 'mm' && readFigure(text).ok)) return text;
  const parsed = parseLength(text, { defaultUnit: unit === 'mm' ? 'mm' : 'in' });
  return parsed.ok ? figure(parsed.lengthMm) : text;
};

/**
 * A cell that reads as text and is typed in place. What is typed is taken when the cell is left or Return is pressed,
 * good or not; Escape takes back what was typed.
 */
export const CellInput = (props: {
  readonly label: string;
  readonly text: string;
  /** The fault of this cell, if any. */
  readonly fault?: string | undefined;
  /** For lengths: the unit to show and type in. Left out for other cells. */
  readonly unit?: DisplayUnit | undefined;
  readonly placeholder?: string | undefined;
  readonly isNumber?: boolean;
  readonly column?: string;
  readonly onText: (text: string) => void;
}) => {
  const [typed, setTyped] = useState<string | null>(null);
  const shown = props.unit ? shownLength(props.text, props.unit) : props.text;
  const take = () => {
    if (typed === null) return;
    setTyped(null);
    const text = typed.trim();
    if (text !== shown) props.onText(props.unit ? typedLength(text, props.unit) : text);
  };
  return (
    <input
      className={props.isNumber || props.unit ? 'cell is-number' : 'cell'}
      aria-label={props.label}
      aria-invalid={props.fault !== undefined}
      title={props.fault ?? (props.isNumber || props.unit ? undefined : props.text || undefined)}
      data-column={props.column}
      value={typed ?? shown}
      placeholder={props.placeholder}
      spellCheck={false}
      autoComplete="off"
      onChange={(event) => setTyped(event.target.value)}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
        if (event.key === 'Escape' && typed !== null) {
          event.stopPropagation();
          setTyped(null);
        }
      }}
    />
  );
};
