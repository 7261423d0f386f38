import { decodeStockText } from '../stock/decodeStockText.ts';
import { demoRange } from '../stock/demoRange.ts';
import { readStockCsv, type StockCsvError } from '../stock/readStockCsv.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { writeStockCsv } from '../stock/writeStockCsv.ts';
import { ApiFailure } from './apiFailure.ts';
import type { Ports } from './ports.ts';
import { utf8 } from './utf8.ts';

interface RangeRef {
  readonly id: string;
  readonly version: number;
}

/** What a stock list came to: a range to look at before it is saved, or every fault with its line and column. */
export type StockListReading =
  | { readonly ok: true; readonly range: StockRange }
  | { readonly ok: false; readonly errors: readonly StockCsvError[] };

const plainName = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80) || 'stock-range';

/** The use cases of stock ranges. A saved version is never changed: every save is the next version. */
export const stockRangesOver = (ports: Pick<Ports, 'store' | 'now'>) => {
  const list = async (): Promise<readonly StockRange[]> => {
    const stored = await ports.store.listStockRanges();
    if (stored.some(({ id, version }) => id === demoRange.id && version === demoRange.version)) return stored;
    await ports.store.putStockRange(demoRange, ports.now());
    return ports.store.listStockRanges();
  };

  const find = async ({ id, version }: RangeRef, path: string): Promise<StockRange> => {
    const range = (await list()).find((one) => one.id === id && one.version === version);
    if (!range)
      throw new ApiFailure(
        'stock-range-missing',
        `The stock range "${id}" version ${version} is not in the archive. Import it or choose another.`,
        path,
      );
    return range;
  };

  return {
    list,
    find,

    /**
     * Keeps a range as the next version of its id. `after` is the latest version that its editor knew of, 0 for a new
     * id: where the archive has gone on since, nothing is saved, so that nobody's changes are passed over unseen.
     */
    save: async (range: StockRange, after: number): Promise<StockRange> => {
      if (range.id === demoRange.id && !range.invented)
        throw new ApiFailure(
          'demo-range-is-invented',
          'The demo range is invented and says so. Copy it under an id of its own, then call the copy real.',
          'range.invented',
        );
      const latest = Math.max(
        0,
        ...(await list()).filter(({ id }) => id === range.id).map(({ version }) => version),
      );
      if (latest !== after)
        throw new ApiFailure(
          after === 0 ? 'stock-range-exists' : 'stock-range-moved-on',
          after === 0
            ? `There is a stock range "${range.id}" already. Give the new one another id.`
            : `Version ${latest} of "${range.id}" was saved since version ${after} was opened. Look at it before saving over it.`,
          after === 0 ? 'range.id' : 'after',
        );
      const saved = { ...range, version: latest + 1 };
      await ports.store.putStockRange(saved, ports.now());
      return saved;
    },

    /** A version's pieces as a CSV file. A byte order mark tells spreadsheets that it is UTF-8. */
    csvOf: async (ref: RangeRef) => {
      const range = await find(ref, 'version');
      return {
        fileName: `${plainName(range.name)}-version-${range.version}.csv`,
        mediaType: 'text/csv',
        bytes: utf8(`\uFEFF${writeStockCsv(range)}`),
      };
    },

    /** Reads a stock list against a version whose rules it keeps. Saves nothing. */
    readCsv: async (ref: RangeRef, bytes: Uint8Array): Promise<StockListReading> => {
      const base = await find(ref, 'version');
      const decoded = decodeStockText(bytes);
      if (!decoded.ok)
        return { ok: false, errors: [{ line: decoded.line, code: 'not-text', message: decoded.message }] };
      return readStockCsv(decoded.text, base);
    },
  };
};

export type StockRanges = ReturnType<typeof stockRangesOver>;
