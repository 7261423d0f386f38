import { type DisplayUnit, formatLength, formatPlusMinus } from '../../units/formatLength.ts';
import { formatMoney, moneyOf } from '../../units/money.ts';
import type { ChangedValue, TakeoffChange } from './takeoffChange.ts';

/** A change in words, as it is printed and shown. */
export interface ChangeRow {
  readonly where: string;
  readonly what: string;
  readonly was: string;
  readonly is: string;
}

const lengthWords = (lengthMm: number, unit: DisplayUnit): string => {
  // Tenths only where there are any.
  const isWhole = Math.abs(lengthMm - Math.round(lengthMm)) < 0.05;
  return formatLength(lengthMm, unit === 'mm' ? { unit, precision: isWhole ? 0 : 1 } : { unit });
};

const valueWords = (value: ChangedValue, unit: DisplayUnit): string => {
  if (value === null) return '–';
  if (typeof value === 'string') return value;
  if ('minor' in value) return formatMoney(moneyOf(value.minor, value.currency));
  const { lengthMm, plusMinusMm } = value;
  const length = lengthWords(lengthMm, unit);
  return plusMinusMm === undefined ? length : `${length} ${formatPlusMinus(plusMinusMm, { unit })}`;
};

/** Changes as rows of a table. */
export const changeRows = (changes: readonly TakeoffChange[], unit: DisplayUnit): readonly ChangeRow[] =>
  changes.map(({ where, what, was, is }) => ({
    where,
    what,
    was: valueWords(was, unit),
    is: valueWords(is, unit),
  }));
