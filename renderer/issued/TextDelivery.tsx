import { useMemo } from 'react';
import { csvDelimiter, readCsvRows } from '../../src/stock/csvRows.ts';

/** More rows than this are told, not shown. */
const rowsMost = 300;
const lettersMost = 60_000;

/** An issued CSV file as the table that it is. */
const CsvTable = ({ text, words }: { readonly text: string; readonly words: string }) => {
  const reading = useMemo(() => readCsvRows(text, csvDelimiter(text)), [text]);
  if (!reading.ok) return <p className="alert issued-note">{reading.message}</p>;
  const [heads, ...body] = reading.rows.map(({ cells }) => cells);
  return (
    <table className="csv-delivery">
      <caption className="visually-hidden">{words}</caption>
      <thead>
        <tr>
          {heads?.map((head, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: columns have no identity and never move
            <th key={index} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {body.slice(0, rowsMost).map((cells, row) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows have no identity and never move
          <tr key={row}>
            {cells.map((cell, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: as above
              <td key={index} className={/^-?[\d.]+$/.test(cell) ? 'is-number' : undefined}>
                {cell}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
      {body.length > rowsMost && (
        <tfoot>
          <tr>
            <td>{body.length - rowsMost} rows more</td>
          </tr>
        </tfoot>
      )}
    </table>
  );
};

/** An issued text file, read from its very bytes. */
export const TextDelivery = (props: {
  readonly bytes: Uint8Array;
  readonly mediaType: string;
  readonly words: string;
}) => {
  const text = useMemo(() => new TextDecoder().decode(props.bytes), [props.bytes]);
  const isTable = props.mediaType.startsWith('text/csv');
  return (
    <section
      className="text-delivery"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls
      tabIndex={0}
      aria-label={props.words}
    >
      {isTable ? (
        <CsvTable text={text} words={props.words} />
      ) : (
        <pre>
          {text.slice(0, lettersMost)}
          {text.length > lettersMost && '\n…'}
        </pre>
      )}
    </section>
  );
};
