import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvDelimiter, readCsvRows, writeCsvRows } from '../../src/stock/csvRows.ts';

const cellsOf = (text: string, delimiter: ',' | ';' | '\t' = ',') => {
  const reading = readCsvRows(text, delimiter);
  if (!reading.ok) throw new Error(reading.message);
  return reading.rows.map((row) => row.cells);
};

describe('reading CSV by RFC 4180, section 2', () => {
  it('takes each record on its own line, ended by CRLF (rule 1)', () => {
    expect(cellsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });
  it('does not need a line break after the last record (rule 2)', () => {
    expect(cellsOf('aaa,bbb,ccc\r\nzzz,yyy,xxx')).toHaveLength(2);
  });
  it('takes spaces as part of a field (rule 4)', () => {
    expect(cellsOf('aaa, bbb ,ccc')).toEqual([['aaa', ' bbb ', 'ccc']]);
  });
  it('takes quoted fields (rule 5), with line breaks and commas in them (rule 6)', () => {
    expect(cellsOf('"aaa","b\r\nbb","c,cc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\r\nbb', 'c,cc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });
  it('takes a doubled quote as a quote (rule 7)', () => {
    expect(cellsOf('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });
});

describe('reading CSV beyond the standard', () => {
  it('counts lines through quoted line breaks', () => {
    const reading = readCsvRows('a,"1\n2\n3"\nb,c\n', ',');
    expect(reading.ok && reading.rows.map((row) => row.line)).toEqual([1, 4]);
  });
  it('keeps an empty last field', () => {
    expect(cellsOf('a,b,')).toEqual([['a', 'b', '']]);
    expect(cellsOf('a,b,\n')).toEqual([['a', 'b', '']]);
  });
  it('says where a quote is left open or stands astray', () => {
    expect(readCsvRows('a\n"b\nc', ',')).toMatchObject({ ok: false, line: 2 });
    expect(readCsvRows('a"b', ',')).toMatchObject({ ok: false, line: 1 });
    expect(readCsvRows('"a"b', ',')).toMatchObject({ ok: false, line: 1 });
  });
  it('passes over a byte order mark', () => {
    expect(cellsOf('\uFEFFa,b')).toEqual([['a', 'b']]);
  });
  it('tells the delimiter from the first line, not from quoted text', () => {
    expect(csvDelimiter('a;b;c\n1,5;2;3')).toBe(';');
    expect(csvDelimiter('a,b\n;;;;')).toBe(',');
    expect(csvDelimiter('"a;b;c",d\n')).toBe(',');
    expect(csvDelimiter('a\tb')).toBe('\t');
  });
});

describe('writing CSV', () => {
  it('is read back as it was, whatever the cells hold', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.array(
            fc.string({ unit: fc.constantFrom('a', ' ', '"', ',', ';', '\t', '\r', '\n', 'é', '|') }),
            { minLength: 2, maxLength: 5 },
          ),
          { maxLength: 6 },
        ),
        (rows) => {
          expect(cellsOf(writeCsvRows(rows))).toEqual(rows);
        },
      ),
      { seed: 4180, numRuns: 300 },
    );
  });
});
