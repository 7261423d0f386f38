/** One record of a CSV text: the line of the text that it starts on, counted from 1, and its fields. */
export interface CsvRow {
  readonly line: number;
  readonly cells: readonly string[];
}

export type CsvReading =
  | { readonly ok: true; readonly rows: readonly CsvRow[] }
  | { readonly ok: false; readonly line: number; readonly message: string };

/** The mark between fields: whichever of comma, semicolon and tab the first line has most of, outside quotes. */
export const csvDelimiter = (text: string): ',' | ';' | '\t' => {
  const counts = { ',': 0, ';': 0, '\t': 0 };
  let quoted = false;
  for (const character of text) {
    if (character === '"') quoted = !quoted;
    else if (quoted) continue;
    else if (character === '\n' || character === '\r') break;
    else if (character === ',' || character === ';' || character === '\t') counts[character] += 1;
  }
  if (counts['\t'] > counts[','] && counts['\t'] > counts[';']) return '\t';
  return counts[';'] > counts[','] ? ';' : ',';
};

/**
 * Reads CSV as RFC 4180 has it: fields may be quoted, a quoted field may hold delimiters, line breaks and doubled
 * quotes. Beyond it: lines may end in LF, CRLF or CR, and a byte order mark is passed over.
 */
export const readCsvRows = (input: string, delimiter: ',' | ';' | '\t'): CsvReading => {
  const text = input.startsWith('\uFEFF') ? input.slice(1) : input;
  const rows: CsvRow[] = [];
  let cells: string[] = [];
  let line = 1;
  let startLine = 1;
  let at = 0;
  while (at < text.length) {
    let cell = '';
    if (text[at] === '"') {
      const openLine = line;
      at += 1;
      for (;;) {
        const close = text.indexOf('"', at);
        if (close < 0) return { ok: false, line: openLine, message: 'a quote is opened and never closed' };
        const piece = text.slice(at, close);
        line += piece.split(/\r\n|\r|\n/).length - 1;
        cell += piece;
        at = close + 1;
        if (text[at] !== '"') break;
        cell += '"';
        at += 1;
      }
      const next = text[at];
      if (next !== undefined && next !== delimiter && next !== '\r' && next !== '\n')
        return {
          ok: false,
          line,
          message: `"${next}" stands after a closing quote; double a quote inside a field`,
        };
    } else {
      const from = at;
      while (at < text.length && text[at] !== delimiter && text[at] !== '\r' && text[at] !== '\n') at += 1;
      cell = text.slice(from, at);
      if (cell.includes('"'))
        return { ok: false, line, message: 'a quote stands inside an unquoted field; quote the whole field' };
    }
    cells.push(cell);
    if (text[at] === delimiter) {
      at += 1;
      // A delimiter at the very end opens one last empty field.
      if (at === text.length) cells.push('');
      else continue;
    }
    rows.push({ line: startLine, cells });
    cells = [];
    if (text[at] === '\r' && text[at + 1] === '\n') at += 2;
    else at += 1;
    line += 1;
    startLine = line;
  }
  return { ok: true, rows };
};

const quoted = (cell: string): string =>
  /[",\r\n;\t]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

/** Writes CSV as RFC 4180 has it: commas, CRLF after every line, quotes where a field needs them. */
export const writeCsvRows = (rows: readonly (readonly string[])[]): string =>
  rows.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
