import type { StockCsvColumn } from '../../src/stock/stockCsvColumns.ts';
import type { DraftRow } from '../../src/stock/stockDraft.ts';
import { elevationFeatures, serviceKinds } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { CellInput } from './CellInput.tsx';
import { cellOf, includesCell, includesParts, partsOf } from './listCell.ts';
import { PartsField } from './PartsField.tsx';

/** All of a piece that does not stand in its row of the table. */
export const PieceDetails = (props: {
  readonly row: DraftRow;
  readonly faults: ReadonlyMap<StockCsvColumn, string>;
  readonly unit: DisplayUnit;
  readonly onCell: (column: StockCsvColumn, text: string) => void;
  readonly onCopy: () => void;
  readonly onRemove: () => void;
}) => {
  const { row, faults, unit, onCell } = props;
  const text = (column: StockCsvColumn) => row.cells[column] ?? '';
  const field = (
    column: StockCsvColumn,
    words: string,
    more: { isLength?: boolean; empty?: string } = {},
  ) => (
    <div className="field">
      <span aria-hidden="true">{words}</span>
      <CellInput
        label={words}
        column={column}
        text={text(column)}
        fault={faults.get(column)}
        unit={more.isLength ? unit : undefined}
        placeholder={more.empty}
        onText={(typed) => onCell(column, typed)}
      />
      {faults.has(column) && <span className="alert">{faults.get(column)}</span>}
    </div>
  );
  const choice = (column: StockCsvColumn, words: string, choices: readonly (readonly [string, string])[]) => (
    <label className="field">
      <span>{words}</span>
      <select
        data-column={column}
        value={text(column)}
        aria-invalid={faults.has(column)}
        onChange={(event) => onCell(column, event.target.value)}
      >
        {!choices.some(([value]) => value === text(column)) && <option>{text(column)}</option>}
        {choices.map(([value, shown]) => (
          <option key={value} value={value}>
            {shown}
          </option>
        ))}
      </select>
    </label>
  );
  const isUnit = row.row === 'corner-unit';
  return (
    <div className="piece-details">
      <div className="piece-fields">
        {field('id', 'Id, by which projects know it')}
        {!isUnit &&
          choice('kind', 'Kind', [
            ['module', 'module'],
            ['station', 'station'],
          ])}
        {!isUnit && field('heightMm', 'Height', { isLength: true, empty: 'as the range' })}
        {!isUnit &&
          choice('hand', 'Hand, from the working side', [
            ['', 'either way'],
            ['left', 'left'],
            ['right', 'right'],
          ])}
        {!isUnit &&
          text('hand') !== '' &&
          field('handOf', 'Both hands together are called', { empty: 'by their names' })}
        {field('frames', 'Frames', { empty: 'by width' })}
        {choice('keepUpright', 'Carried upright', [
          ['', 'any way round'],
          ['yes', 'always upright'],
          ['no', 'any way round, said so'],
        ])}
        {!isUnit && field('beside', 'Stands next to, ids between bars')}
        {!isUnit && field('clearOf', 'Keeps clear of, id:mm between bars')}
      </div>
      {!isUnit && (
        <>
          <PartsField
            title="Services that come up to it"
            one="service"
            unit={unit}
            columns={[
              { words: 'Service', kind: 'choice', choices: serviceKinds },
              { words: 'From its left end', kind: 'length' },
              { words: 'Above the floor', kind: 'length' },
              { words: 'Connection', kind: 'text', placeholder: 'G 1/2' },
              { words: 'Count', kind: 'number', placeholder: '1' },
              { words: 'Load, kW', kind: 'number' },
            ]}
            parts={partsOf(text('services'))}
            fresh={['cold-water', '0', '550', 'G 1/2']}
            fault={faults.get('services')}
            onParts={(parts) => onCell('services', cellOf(parts))}
          />
          <PartsField
            title="Comes with it"
            one="part"
            unit={unit}
            columns={[
              { words: 'Count', kind: 'number' },
              { words: 'Name', kind: 'name' },
            ]}
            parts={includesParts(text('includes'))}
            fresh={['1', 'Waste']}
            fault={faults.get('includes')}
            onParts={(parts) => onCell('includes', includesCell(parts))}
          />
          <PartsField
            title="Shown on the developed elevation"
            one="feature"
            unit={unit}
            columns={[
              { words: 'Feature', kind: 'choice', choices: elevationFeatures },
              { words: 'From', kind: 'length' },
              { words: 'To', kind: 'length' },
              { words: 'Count', kind: 'number', placeholder: '1' },
            ]}
            parts={partsOf(text('elevation'))}
            fresh={['shelf', '0', text('widthMm') || '600']}
            fault={faults.get('elevation')}
            onParts={(parts) => onCell('elevation', cellOf(parts))}
          />
        </>
      )}
      <p className="acts">
        <button type="button" className="word-button" onClick={props.onCopy}>
          Copy this piece
        </button>
        <button type="button" className="word-button" onClick={props.onRemove}>
          Remove this piece
        </button>
      </p>
    </div>
  );
};
