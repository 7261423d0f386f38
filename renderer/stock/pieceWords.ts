import type { DraftRow } from '../../src/stock/stockDraft.ts';
import { partsOf } from './listCell.ts';

export const supportWords: Readonly<Record<string, string>> = {
  standing: 'standing',
  carried: 'carried',
  'drop-in': 'drop-in',
  countertop: 'countertop',
};

/** The services of a row in a few words: `6 beer line, 2 coolant, waste`. Empty where it has none. */
export const servicesWords = ({ cells }: DraftRow): string =>
  partsOf(cells.services ?? '')
    .map(
      ([kind = '', , , , count = '']) =>
        `${count !== '' && count !== '1' ? `${count} ` : ''}${kind.replaceAll('-', ' ')}`,
    )
    .join(', ');

/** Which table a row belongs to. */
export const groupOf = ({ row, cells }: DraftRow): 'module' | 'station' | 'corner-unit' =>
  row === 'corner-unit' ? 'corner-unit' : cells.kind === 'module' ? 'module' : 'station';
