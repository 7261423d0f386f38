import './PieceTable.css';
import { type KeyboardEvent, useMemo } from 'react';
import type { StockCsvColumn } from '../../src/stock/stockCsvColumns.ts';
import type { DraftRow } from '../../src/stock/stockDraft.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { noFaults, PieceRow } from './PieceRow.tsx';

const titles = { module: 'Modules', station: 'Stations', 'corner-unit': 'Corner units' } as const;

/** Up and down go to the same cell of the piece above and below, as on a ledger sheet. */
const moveAmongRows = (event: KeyboardEvent<HTMLTableElement>) => {
  const { target } = event;
  if (!(target instanceof HTMLInputElement) || !target.dataset['column']) return;
  if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp' && event.key !== 'Enter') return;
  const column = target.dataset['column'];
  const cells = [
    ...event.currentTarget.querySelectorAll<HTMLInputElement>(`tr.piece [data-column="${column}"]`),
  ];
  const at = cells.indexOf(target);
  if (at < 0) return;
  event.preventDefault();
  const next = cells[event.key === 'ArrowUp' || event.shiftKey ? at - 1 : at + 1];
  next?.focus();
  next?.select();
};

/** The pieces of one kind as a quiet table that is typed in place. */
export const PieceTable = (props: {
  readonly group: keyof typeof titles;
  readonly rows: readonly DraftRow[];
  /** Of how many: the others do not match what is searched for. */
  readonly of: number;
  readonly faults: ReadonlyMap<string, ReadonlyMap<StockCsvColumn, string>>;
  readonly unit: DisplayUnit;
  readonly currency: string;
  readonly openRow: string | null;
  readonly onCell: (key: string, column: StockCsvColumn, text: string) => void;
  readonly onToggle: (key: string) => void;
  readonly onCopy: (row: DraftRow) => void;
  readonly onRemove: (key: string) => void;
  readonly onAdd: (group: keyof typeof titles) => void;
}) => {
  const { group, rows } = props;
  const isUnit = group === 'corner-unit';
  const unitWord = props.unit === 'mm' ? ', mm' : '';
  const headings = useMemo(
    () => [
      { words: 'Name', column: 'name', isNumber: false },
      { words: `${isUnit ? 'Size' : 'Width'}${unitWord}`, column: 'width', isNumber: true },
      ...(isUnit
        ? []
        : [
            { words: `Depth${unitWord}`, column: 'depth', isNumber: true },
            { words: 'Held up', column: 'support', isNumber: false },
            { words: 'Used as', column: 'fill', isNumber: false },
          ]),
      { words: `Price, ${props.currency || '…'}`, column: 'price', isNumber: true },
      { words: 'Mass, kg', column: 'mass', isNumber: true },
      { words: `Packed${unitWord}`, column: 'packed', isNumber: true },
      { words: 'Lead, days', column: 'lead', isNumber: true },
      { words: 'Services and more', column: 'more', isNumber: false },
    ],
    [isUnit, unitWord, props.currency],
  );
  const count = rows.length === props.of ? String(props.of) : `${rows.length} of ${props.of}`;
  return (
    <section className={`pieces pieces-${group}`} aria-label={titles[group]}>
      <h3>
        {titles[group]} <span className="quiet">{count}</span>
      </h3>
      {rows.length > 0 && (
        <table className="stock-table" onKeyDown={moveAmongRows}>
          <thead>
            <tr>
              {headings.map(({ words, column, isNumber }) => (
                <th
                  key={column}
                  scope="col"
                  className={isNumber ? `number column-${column}` : `column-${column}`}
                >
                  {words}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <PieceRow
                key={row.key}
                row={row}
                faults={props.faults.get(row.key) ?? noFaults}
                unit={props.unit}
                isOpen={props.openRow === row.key}
                columns={headings.length}
                onCell={props.onCell}
                onToggle={props.onToggle}
                onCopy={props.onCopy}
                onRemove={props.onRemove}
              />
            ))}
          </tbody>
        </table>
      )}
      <p>
        <button type="button" className="word-button" onClick={() => props.onAdd(group)}>
          {{ module: 'Add a module', station: 'Add a station', 'corner-unit': 'Add a corner unit' }[group]}
        </button>
      </p>
    </section>
  );
};
