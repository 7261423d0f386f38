/**
 * DXF in ASCII: pairs of a group code and a value, each on its own line (Autodesk's DXF reference, "Group codes in
 * numerical order"; from memory). Numbers are written to a hundred-thousandth of a millimetre.
 */
export type DxfTag = readonly [code: number, value: string | number];

const realCodes = (code: number): boolean =>
  (code >= 10 && code <= 59) || (code >= 110 && code <= 149) || (code >= 210 && code <= 239);

const real = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`A number of a DXF file must be finite, found ${value}`);
  const text = value.toFixed(5).replace(/0+$/, '').replace(/\.$/, '.0');
  return text === '-0.0' ? '0.0' : text;
};

/** Text as one line that no reader takes for a control code: `%%` and `^` start codes, a backslash starts another. */
export const dxfText = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters end a line of the file
    .replace(/[\u0000-\u001f\u007f\u2028\u2029]+/g, ' ')
    .replace(/%{2,}/g, (run) => run.split('').join(' '))
    .replaceAll('^', '^ ')
    .replaceAll('\\', '/')
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .slice(0, 250);

/** The lines of tags, each ended by CR LF. */
export const dxfLines = (tags: readonly DxfTag[]): string => {
  let lines = '';
  for (const [code, value] of tags)
    lines += `${String(code).padStart(3)}\r\n${typeof value === 'number' ? (realCodes(code) ? real(value) : String(Math.round(value))) : value}\r\n`;
  return lines;
};
