import { type DisplayUnit, formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';

/** A length with its +/- beside it in a lighter weight. */
export const Length = (props: {
  readonly lengthMm: number;
  readonly plusMinusMm?: number | undefined;
  readonly unit: DisplayUnit;
}) => (
  <span className="length">
    {formatLength(props.lengthMm, { unit: props.unit })}
    {props.plusMinusMm !== undefined && (
      <span className="plus-minus"> {formatPlusMinus(props.plusMinusMm, { unit: props.unit })}</span>
    )}
  </span>
);
