/** The lists within a cell: parts between bars, their pieces between colons, as the CSV list has them. */
export const partsOf = (text: string): readonly (readonly string[])[] =>
  text.trim() === '' ? [] : text.split('|').map((part) => part.split(':').map((piece) => piece.trim()));

/** Parts as the text of a cell; empty pieces at the end of a part are left out. */
export const cellOf = (parts: readonly (readonly string[])[]): string =>
  parts
    .map((pieces) => {
      const last = pieces.findLastIndex((piece) => piece !== '');
      return pieces.slice(0, last + 1).join(':');
    })
    .join(' | ');

/** Things that come with a piece are written `2 x Name`; as parts they are count and name. */
export const includesParts = (text: string): readonly (readonly string[])[] =>
  text.trim() === ''
    ? []
    : text.split('|').map((part) => {
        const match = /^(\d*) x (.*)$/.exec(part.trim());
        return match ? [match[1] ?? '', match[2] ?? ''] : ['', part.trim()];
      });

export const includesCell = (parts: readonly (readonly string[])[]): string =>
  parts.map(([count = '', name = '']) => `${count} x ${name}`).join(' | ');
