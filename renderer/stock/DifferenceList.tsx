import type { StockDifference } from '../../src/stock/stockDifference.ts';
import { columnWords } from './PieceRow.tsx';

const short = (text: string): string =>
  text === '' ? 'nothing' : text.length > 60 ? `${text.slice(0, 57)} …` : text;

/** What differs, piece by piece: to look at before it is taken. */
export const DifferenceList = ({ difference }: { readonly difference: StockDifference }) => (
  <ul className="difference">
    {difference.added.map(({ id, name }) => (
      <li key={`added ${id}`}>
        <b>New</b> {name} <span className="quiet">{id}</span>
      </li>
    ))}
    {difference.removed.map(({ id, name }) => (
      <li key={`removed ${id}`}>
        <b>Gone</b> {name} <span className="quiet">{id}</span>
      </li>
    ))}
    {difference.changed.map(({ id, name, changes }) => (
      <li key={`changed ${id}`}>
        <b>Changed</b> {name}:{' '}
        {changes
          .map(
            ({ column, before, after }) =>
              `${(columnWords[column] ?? column).toLowerCase()} ${short(before)} → ${short(after)}`,
          )
          .join('; ')}
      </li>
    ))}
    {difference.rules.map(({ path, words, before, after }) => (
      <li key={path}>
        <b>Rule</b> {words}: {short(before)} → {short(after)}
      </li>
    ))}
  </ul>
);
