/** A text file's characters, or the line at which its bytes stop being text. */
export type DecodedText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly line: number; readonly message: string };

const continuation = (byte: number | undefined): byte is number =>
  byte !== undefined && (byte & 0xc0) === 0x80;

const newLine = 0x0a;

const decodeUtf16 = (bytes: Uint8Array, low: 0 | 1): DecodedText => {
  const units: string[] = [];
  for (let at = 2; at + 1 < bytes.length; at += 2)
    units.push(String.fromCharCode((bytes[at + 1 - low] ?? 0) * 256 + (bytes[at + low] ?? 0)));
  const text = units.join('');
  return bytes.length % 2 === 0 && !text.includes('\0')
    ? { ok: true, text }
    : { ok: false, line: 1, message: 'This is not a text file: save the list as CSV.' };
};

/**
 * The text of a file that a spreadsheet saved: UTF-8 (RFC 3629, nothing overlong, no surrogates), or UTF-16 where it
 * starts with a byte order mark. Bytes in any other encoding are refused, with their line, rather than guessed: a
 * wrong guess would change names without a word. A UTF-8 byte order mark stays for the CSV reader to pass over.
 */
export const decodeStockText = (bytes: Uint8Array): DecodedText => {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return decodeUtf16(bytes, 0);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return decodeUtf16(bytes, 1);
  const characters: string[] = [];
  let line = 1;
  let at = 0;
  while (at < bytes.length) {
    const lead = bytes[at] ?? 0;
    const length =
      lead < 0x80 ? 1 : lead < 0xc2 ? 0 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : lead < 0xf5 ? 4 : 0;
    let code = length === 1 ? lead : lead & (0xff >> (length + 1));
    let isWhole = length > 0 && lead !== 0;
    for (let more = 1; more < length; more += 1) {
      const byte = bytes[at + more];
      if (continuation(byte)) code = code * 64 + (byte & 0x3f);
      else isWhole = false;
    }
    const isOverlong = (length === 3 && code < 0x800) || (length === 4 && code < 0x10000);
    if (!isWhole || isOverlong || code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff))
      return {
        ok: false,
        line,
        message:
          lead === 0
            ? 'This is not a text file: save the list as CSV.'
            : `Line ${line} is not UTF-8 text: save the list as “CSV UTF-8”.`,
      };
    characters.push(String.fromCodePoint(code));
    if (code === newLine) line += 1;
    at += length;
  }
  return { ok: true, text: characters.join('') };
};
