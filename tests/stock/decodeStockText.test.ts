import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeStockText } from '../../src/stock/decodeStockText.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

/** The platform's decoder as the oracle (WHATWG Encoding, `fatal`). */
const byPlatform = (bytes: Uint8Array): string | null => {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
};

describe('the bytes of a stock list', () => {
  it('decode as the platform decodes UTF-8, or are refused where it refuses them', () => {
    const byte = fc.oneof(
      fc.integer({ min: 1, max: 255 }),
      fc.constantFrom(0x41, 0x0a, 0xc3, 0xa4, 0xe2, 0x82, 0xac, 0xed, 0xa0, 0x80, 0xf0, 0x9f, 0xf4, 0x90),
    );
    fc.assert(
      fc.property(fc.array(byte, { maxLength: 8 }), (list) => {
        const bytes = Uint8Array.from(list);
        const isUtf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
        fc.pre(!isUtf16);
        const decoded = decodeStockText(bytes);
        expect(decoded.ok ? decoded.text : null).toBe(byPlatform(bytes));
      }),
      { seed: 31, numRuns: campaignSize({ sample: 3_000, full: 200_000 }) },
    );
  });

  it('decode any text that the platform encodes', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 30 }), (text) => {
        fc.pre(!text.includes('\0'));
        const bytes = new TextEncoder().encode(text);
        expect(decodeStockText(bytes)).toEqual({ ok: true, text: byPlatform(bytes) });
      }),
      { seed: 32, numRuns: campaignSize({ sample: 500, full: 20_000 }) },
    );
  });

  it('decode as UTF-16 in either byte order where the file says so', () => {
    const text = 'id;name\r\nm-1;Tür 900 → 𝄞\r\n';
    const little = Buffer.from(`\uFEFF${text}`, 'utf16le');
    const big = Buffer.from(little).swap16();
    expect(decodeStockText(little)).toEqual({ ok: true, text });
    expect(decodeStockText(big)).toEqual({ ok: true, text });
  });

  it('are refused with the line where a spreadsheet saved them in its own code page', () => {
    const windows1252 = Uint8Array.from([...'id;name\nm-1;T'].map((c) => c.charCodeAt(0)).concat(0xfc, 0x72));
    expect(decodeStockText(windows1252)).toMatchObject({ ok: false, line: 2 });
    expect(decodeStockText(windows1252)).toHaveProperty('message', expect.stringContaining('CSV UTF-8'));
  });

  it('are refused where they are no text at all', () => {
    expect(decodeStockText(Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0]))).toMatchObject({ ok: false });
    expect(decodeStockText(Uint8Array.from([0xff, 0xfe, 0x41]))).toMatchObject({ ok: false });
  });
});
