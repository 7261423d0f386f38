/** What XML 1.0 cannot hold at all, whatever the escape: control characters, half surrogates, two non-characters. */
const unwritable =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to take out
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** Text as XML, in content or in a double-quoted attribute; what XML cannot hold becomes U+FFFD. */
export const xmlText = (value: string): string =>
  value.replace(unwritable, '\uFFFD').replace(/[&<>"]/g, (mark) => entities[mark] ?? mark);

/**
 * Text as a spreadsheet's string. Its format reads `_x0041_` as an escaped letter (ECMA-376 Part 1, 22.9.2.19, ST_Xstring; from
 * memory), so that an underscore which would begin one is itself escaped; a carriage return would be lost otherwise.
 */
export const spreadsheetText = (value: string): string =>
  xmlText(value.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')).replaceAll('\r', '_x000D_');
