import { useEffect, useRef, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import { differenceWords, isSameStock, stockDifference } from '../../src/stock/stockDifference.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { saveFile } from '../project/saveFile.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { DifferenceList } from './DifferenceList.tsx';

type Reading = ApiOutput<'read-stock-csv'>['reading'];

/** The reason without the line and column, which stand beside it. */
const reasonWords = (message: string): string => {
  const words = message.replace(/^Line \d+(, [^:]+)?: /, '');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** The list out and in: a list that is read is looked at first, and a bad one changes nothing. */
export const CsvPanel = (props: {
  readonly api: ApiClient;
  /** The saved version whose list goes out, and whose rules a list that comes in keeps. */
  readonly saved: StockRange;
  /** What the draft holds now, to compare with; null while it does not read. */
  readonly current: StockRange | null;
  readonly onTake: (range: StockRange) => void;
}) => {
  const { api, saved } = props;
  const input = useRef<HTMLInputElement>(null);
  const [file, setFile] = useState<{ readonly name: string; readonly reading: Reading } | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const ref = { id: saved.id, version: saved.version };
  const shown = useRef<HTMLElement>(null);
  useEffect(() => {
    if (file) shown.current?.scrollIntoView({ block: 'nearest' });
  }, [file]);
  const attempt = async (act: () => Promise<void>) => {
    setIsBusy(true);
    setTrouble(null);
    try {
      await act();
    } catch (thrown) {
      setTrouble(wordsFor(thrown));
    } finally {
      setIsBusy(false);
    }
  };
  const read = (picked: File) =>
    attempt(async () => {
      const bytes = new Uint8Array(await picked.arrayBuffer());
      const { reading } = await api.call('read-stock-csv', { ...ref, bytes });
      setFile({ name: picked.name, reading });
    });
  const proposal = file?.reading.ok ? file.reading.range : null;
  const difference =
    proposal &&
    stockDifference(props.current ?? saved, {
      ...(props.current ?? saved),
      items: proposal.items,
      cornerUnits: proposal.cornerUnits,
    });
  return (
    <section className="csv-panel" aria-label="List as CSV">
      <p className="acts">
        <button
          type="button"
          className="word-button"
          disabled={isBusy}
          onClick={() => void attempt(async () => saveFile(await api.call('stock-range-csv', ref)))}
        >
          Save version {saved.version} as CSV
        </button>
        <button
          type="button"
          className="word-button"
          disabled={isBusy}
          onClick={() => input.current?.click()}
        >
          Read a CSV list …
        </button>
        <input
          ref={input}
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          className="visually-hidden"
          aria-label="CSV list"
          tabIndex={-1}
          onChange={(event) => {
            const picked = event.target.files?.[0];
            if (picked) void read(picked);
            event.target.value = '';
          }}
        />
      </p>
      {trouble && (
        <p className="alert" role="alert">
          {trouble}
        </p>
      )}
      {file && (
        <section
          ref={shown}
          className="csv-reading"
          aria-live="polite"
          aria-label={`What ${file.name} holds`}
        >
          {!file.reading.ok && (
            <>
              <p className="alert">
                <b>{file.name}</b> was not taken:{' '}
                {file.reading.errors.length === 1 ? 'one place' : `${file.reading.errors.length} places`} in
                it
                {file.reading.errors.length === 1 ? ' needs' : ' need'} work. The range is as it was.
              </p>
              <table className="csv-errors">
                <thead>
                  <tr>
                    <th scope="col" className="number">
                      Line
                    </th>
                    <th scope="col">Column</th>
                    <th scope="col">Reason</th>
                  </tr>
                </thead>
                <tbody>
                  {file.reading.errors.map(({ line, column, message }) => (
                    <tr key={`${line} ${column ?? ''} ${message}`}>
                      <td className="number">{line}</td>
                      <td>{column ?? '–'}</td>
                      <td>{reasonWords(message)}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </>
          )}
          {difference && proposal && (
            <>
              <p>
                <b>{file.name}</b> holds {proposal.items.length} pieces and {proposal.cornerUnits.length}{' '}
                corner units:{' '}
                {isSameStock(difference) ? 'the same as here.' : `${differenceWords(difference)}.`}
              </p>
              <DifferenceList difference={difference} />
            </>
          )}
          <p className="acts">
            {difference && proposal && !isSameStock(difference) && (
              <button
                type="button"
                className="plain-button"
                onClick={() => {
                  props.onTake(proposal);
                  setFile(null);
                }}
              >
                Take these pieces
              </button>
            )}
            <button type="button" className="word-button" onClick={() => setFile(null)}>
              Put away
            </button>
          </p>
        </section>
      )}
    </section>
  );
};
