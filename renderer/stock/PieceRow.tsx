import { memo } from 'react';
import type { StockCsvColumn } from '../../src/stock/stockCsvColumns.ts';
import type { DraftRow } from '../../src/stock/stockDraft.ts';
import { supports } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { CellInput } from './CellInput.tsx';
import { PieceDetails } from './PieceDetails.tsx';
import { servicesWords, supportWords } from './pieceWords.ts';

export const noFaults: ReadonlyMap<StockCsvColumn, string> = new Map();

/** One piece of a range: a line of the table, and all else about it below while it is open. */
export const PieceRow = memo(
  (props: {
    readonly row: DraftRow;
    readonly faults: ReadonlyMap<StockCsvColumn, string>;
    readonly unit: DisplayUnit;
    readonly isOpen: boolean;
    readonly columns: number;
    readonly onCell: (key: string, column: StockCsvColumn, text: string) => void;
    readonly onToggle: (key: string) => void;
    readonly onCopy: (row: DraftRow) => void;
    readonly onRemove: (key: string) => void;
  }) => {
    const { row, faults, unit, isOpen } = props;
    const isUnit = row.row === 'corner-unit';
    const name = row.cells.name || row.cells.id || 'this piece';
    const cell = (
      column: StockCsvColumn,
      words: string,
      more: { isLength?: boolean; isNumber?: boolean; empty?: string } = {},
    ) => (
      <CellInput
        label={`${words} of ${name}`}
        column={column}
        text={row.cells[column] ?? ''}
        fault={faults.get(column)}
        unit={more.isLength ? unit : undefined}
        isNumber={more.isNumber ?? false}
        placeholder={more.empty}
        onText={(text) => props.onCell(row.key, column, text)}
      />
    );
    const services = servicesWords(row);
    const hiddenFaults = [...faults.keys()].some((column) => !shownColumns.has(column));
    return (
      <>
        <tr data-row={row.key} className={faults.size > 0 ? 'piece has-fault' : 'piece'}>
          <th scope="row">{cell('name', 'Name')}</th>
          <td>{cell('widthMm', isUnit ? 'Size' : 'Width', { isLength: true })}</td>
          {!isUnit && <td>{cell('depthMm', 'Depth', { isLength: true, empty: 'run’s' })}</td>}
          {!isUnit && (
            <td>
              <select
                className="cell"
                aria-label={`How ${name} is held up`}
                data-column="support"
                value={row.cells.support ?? ''}
                aria-invalid={faults.has('support')}
                title={faults.get('support')}
                onChange={(event) => props.onCell(row.key, 'support', event.target.value)}
              >
                {!supports.some((support) => support === row.cells.support) && (
                  <option value={row.cells.support ?? ''}>{row.cells.support || 'choose'}</option>
                )}
                {supports.map((support) => (
                  <option key={support} value={support}>
                    {supportWords[support]}
                  </option>
                ))}
              </select>
            </td>
          )}
          {!isUnit && (
            <td>
              <select
                className="cell"
                aria-label={`Whether ${name} is used as fill`}
                data-column="fill"
                value={row.cells.fill ?? ''}
                onChange={(event) => props.onCell(row.key, 'fill', event.target.value)}
              >
                <option value="">{row.cells.support === 'standing' ? 'fills' : 'by wish'}</option>
                {row.cells.support === 'standing' ? (
                  <option value="no">by wish</option>
                ) : (
                  <option value="yes">fills</option>
                )}
                {row.cells.fill === (row.cells.support === 'standing' ? 'yes' : 'no') && (
                  <option value={row.cells.fill}>{row.cells.fill === 'yes' ? 'fills' : 'by wish'}</option>
                )}
              </select>
            </td>
          )}
          <td>{cell('price', 'Price', { isNumber: true, empty: 'none' })}</td>
          <td>{cell('massKg', 'Mass', { isNumber: true, empty: 'none' })}</td>
          <td className="packed">
            {cell('packedLengthMm', 'Packed length', { isLength: true, empty: '–' })}
            <span aria-hidden="true">×</span>
            {cell('packedWidthMm', 'Packed width', { isLength: true, empty: '–' })}
            <span aria-hidden="true">×</span>
            {cell('packedHeightMm', 'Packed height', { isLength: true, empty: '–' })}
          </td>
          <td>{cell('leadTimeDays', 'Lead time', { isNumber: true, empty: 'none' })}</td>
          <td>
            <button
              type="button"
              className={hiddenFaults ? 'word-button services alert' : 'word-button services'}
              aria-expanded={isOpen}
              aria-label={`${isOpen ? 'Close' : 'Services and more'} of ${name}${services ? `: ${services}` : ''}`}
              title={services || undefined}
              onClick={() => props.onToggle(row.key)}
            >
              {isOpen ? 'close' : services || 'more'}
            </button>
          </td>
        </tr>
        {faults.size > 0 && (
          <tr className="piece-fault">
            <td colSpan={props.columns}>
              {[...faults].map(([column, message]) => (
                <p key={column} className="alert">
                  <b>{columnWords[column] ?? column}</b>: {message}
                </p>
              ))}
            </td>
          </tr>
        )}
        {isOpen && (
          <tr className="piece-more">
            <td colSpan={props.columns}>
              <PieceDetails
                row={row}
                faults={faults}
                unit={unit}
                onCell={(column, text) => props.onCell(row.key, column, text)}
                onCopy={() => props.onCopy(row)}
                onRemove={() => props.onRemove(row.key)}
              />
            </td>
          </tr>
        )}
      </>
    );
  },
);

const shownColumns: ReadonlySet<StockCsvColumn> = new Set([
  'name',
  'widthMm',
  'depthMm',
  'support',
  'fill',
  'price',
  'massKg',
  'packedLengthMm',
  'packedWidthMm',
  'packedHeightMm',
  'leadTimeDays',
]);

/** What a column of the CSV list is called on the screen. */
export const columnWords: Readonly<Partial<Record<StockCsvColumn, string>>> = {
  id: 'Id',
  name: 'Name',
  kind: 'Kind',
  widthMm: 'Width',
  depthMm: 'Depth',
  heightMm: 'Height',
  support: 'Held up',
  fill: 'Fill',
  hand: 'Hand',
  handOf: 'Name of both hands',
  price: 'Price',
  massKg: 'Mass',
  packedLengthMm: 'Packed length',
  packedWidthMm: 'Packed width',
  packedHeightMm: 'Packed height',
  keepUpright: 'Carried upright',
  leadTimeDays: 'Lead time',
  frames: 'Frames',
  beside: 'Stands next to',
  clearOf: 'Keeps clear of',
  includes: 'Comes with it',
  services: 'Services',
  elevation: 'Elevation',
};
