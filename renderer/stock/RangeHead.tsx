import { demoRange } from '../../src/stock/demoRange.ts';
import type { DraftHeadField, StockDraft } from '../../src/stock/stockDraft.ts';
import { CellInput } from './CellInput.tsx';

/** What a range is called, in which currency it is priced, and whether anybody sells it. */
export const RangeHead = (props: {
  readonly draft: StockDraft;
  readonly faults: ReadonlyMap<DraftHeadField, string>;
  /** The id can be typed until the range is first saved: projects know it by its id. */
  readonly isNew: boolean;
  readonly onHead: (field: DraftHeadField, text: string) => void;
  readonly onInvented: (invented: boolean) => void;
}) => {
  const { draft, faults } = props;
  const field = (name: DraftHeadField, words: string) => (
    <div className={`field head-${name}`} data-head={name}>
      <span aria-hidden="true">{words}</span>
      <CellInput
        label={words}
        text={draft.head[name]}
        fault={faults.get(name)}
        onText={(text) => props.onHead(name, text)}
      />
      {faults.has(name) && <span className="alert">{faults.get(name)}</span>}
    </div>
  );
  const isDemo = draft.head.id === demoRange.id;
  return (
    <div className="range-head">
      {field('name', 'Name of the range')}
      {props.isNew && field('id', 'Id, by which projects know it')}
      {field('currency', 'Currency')}
      {field('note', 'Note')}
      <label className="invented">
        <input
          type="checkbox"
          checked={draft.invented}
          disabled={isDemo}
          onChange={(event) => props.onInvented(event.target.checked)}
        />{' '}
        Invented: nobody sells these pieces at these prices
        {isDemo && <span className="quiet"> (the demo range always is; copy it to make a real one)</span>}
      </label>
    </div>
  );
};
