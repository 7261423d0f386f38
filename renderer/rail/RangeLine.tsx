import type { ProjectDocument, StockRangeRef } from '../../src/document/projectDocument.ts';
import { differenceWords, isSameStock, stockDifference } from '../../src/stock/stockDifference.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { newestRanges, rangeName, rangeWords, type StockShelf } from '../stock/stockShelf.ts';
import { useStockShelf } from '../stock/useStockShelf.ts';

/** Which stock range and version the project is fitted with; a newer one is offered, never taken by itself. */
export const RangeLine = (props: {
  readonly document: ProjectDocument;
  readonly range: StockRange | null;
  readonly shelf: StockShelf;
  readonly onStock: (version: StockRangeRef) => void;
  readonly onChoose: (version: StockRangeRef) => void;
}) => {
  const { document, range } = props;
  const { ranges } = useStockShelf(props.shelf);
  const newest = newestRanges(ranges);
  const newer = newest.find(({ id }) => id === document.stockRange.id);
  const others = newest.filter(({ id }) => id !== document.stockRange.id);
  const isNewer = range && newer && newer.version > range.version;
  const difference = isNewer ? stockDifference(range, newer) : null;
  return (
    <div className="range-line">
      <p>
        <span className="quiet">Stock range</span>{' '}
        <button
          type="button"
          className="word-button"
          title={range ? rangeWords(range) : undefined}
          onClick={() => props.onStock(document.stockRange)}
        >
          <span className="range-line-name">{range ? rangeName(range) : document.stockRange.id}</span>
          version {document.stockRange.version}
        </button>
      </p>
      {isNewer && difference && (
        <p className="offer">
          Version {newer.version} is there
          {isSameStock(difference) ? ', and holds the same' : `: ${differenceWords(difference)}`}.{' '}
          <button
            type="button"
            className="word-button"
            onClick={() => props.onChoose({ id: newer.id, version: newer.version })}
          >
            Refit with version {newer.version}
          </button>
        </p>
      )}
      {others.length > 0 && (
        <label className="field">
          <span>Fit with another range</span>
          <select
            value=""
            onChange={(event) => {
              const chosen = others.find(({ id }) => id === event.target.value);
              if (chosen) props.onChoose({ id: chosen.id, version: chosen.version });
            }}
          >
            <option value="">Choose …</option>
            {others.map((one) => (
              <option key={one.id} value={one.id}>
                {rangeWords(one)}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
};
