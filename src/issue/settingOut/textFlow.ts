import { PaperPen, type PaperPicture, type PenFont, type Rgb } from '../drawing/paperPen.ts';
import { capital, ink } from './planInk.ts';

/** Breaks a text into lines no wider than `widthMm`; a word that is wider than that stands alone. */
export const wrappedLines = (
  text: string,
  widthMm: number,
  widthOf: (text: string) => number,
): readonly string[] => {
  const found: string[] = [];
  for (const word of text.split(' ').filter(Boolean)) {
    const last = found.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && widthOf(longer) <= widthMm) found[found.length - 1] = longer;
    else found.push(word);
  }
  return found;
};

/** Something that stands in a column: its height, and its picture with the top left corner at the origin. */
export interface ColumnBlock {
  readonly heightMm: number;
  readonly picture: PaperPicture;
}

const lineMm = 3.2;

/** A heading and paragraphs, wrapped to a column. */
export const textBlock = (
  font: PenFont,
  widthMm: number,
  words: { readonly heading?: string; readonly paragraphs: readonly string[]; readonly colour?: Rgb },
): ColumnBlock => {
  const pen = new PaperPen(font);
  let y = 0;
  if (words.heading) {
    y -= capital.usual + 0.6;
    pen.text({
      text: words.heading,
      at: { x: 0, y },
      capitalMm: capital.usual,
      colour: ink,
      mostMm: widthMm,
    });
    y -= 1.4;
  }
  for (const paragraph of words.paragraphs) {
    for (const text of wrappedLines(paragraph, widthMm, (one) => pen.textWidth(one, capital.small))) {
      y -= lineMm;
      pen.text({
        text,
        at: { x: 0, y },
        capitalMm: capital.small,
        colour: words.colour ?? ink,
        mostMm: widthMm,
      });
    }
    y -= 0.8;
  }
  return { heightMm: -y + 1, picture: pen.picture() };
};

/** Where blocks find their places: column by column, then sheet by sheet. */
export const flowBlocks = (
  blocks: readonly ColumnBlock[],
  columns: { readonly count: number; readonly heightMm: number; readonly gapMm: number },
): readonly {
  readonly block: ColumnBlock;
  readonly sheet: number;
  readonly column: number;
  readonly downMm: number;
}[] => {
  let column = 0;
  let down = 0;
  return blocks.map((block) => {
    if (down > 0 && down + block.heightMm > columns.heightMm) {
      column += 1;
      down = 0;
    }
    const place = {
      block,
      sheet: Math.floor(column / columns.count),
      column: column % columns.count,
      downMm: down,
    };
    down += block.heightMm + columns.gapMm;
    return place;
  });
};

/** The same with columns of one sheet as even as the blocks allow. */
export const balancedFlow = (
  blocks: readonly ColumnBlock[],
  columns: { readonly count: number; readonly heightMm: number; readonly gapMm: number },
): ReturnType<typeof flowBlocks> => {
  const total = blocks.reduce((sum, { heightMm }) => sum + heightMm + columns.gapMm, 0);
  for (let heightMm = total / columns.count; heightMm < columns.heightMm; heightMm += 5) {
    const flowed = flowBlocks(blocks, { ...columns, heightMm });
    if (flowed.every(({ sheet }) => sheet === 0)) return flowed;
  }
  return flowBlocks(blocks, columns);
};

/**
 * Puts blocks into the columns of one sheet: in order where that works, else the tallest first, each in the first column
 * with room for it. What finds none is left over.
 */
export const packBlocks = (
  blocks: readonly ColumnBlock[],
  columns: { readonly count: number; readonly heightMm: number; readonly gapMm: number },
): { readonly placed: ReturnType<typeof flowBlocks>; readonly leftOver: readonly ColumnBlock[] } => {
  const inOrder = flowBlocks(blocks, columns);
  if (inOrder.every(({ sheet }) => sheet === 0)) return { placed: inOrder, leftOver: [] };
  const downs = Array.from({ length: columns.count }, () => 0);
  const leftOver: ColumnBlock[] = [];
  const placed = blocks
    .toSorted((one, other) => other.heightMm - one.heightMm)
    .flatMap((block) => {
      const column = downs.findIndex((down) => down + block.heightMm <= columns.heightMm);
      if (column < 0) {
        leftOver.push(block);
        return [];
      }
      const downMm = downs[column]!;
      downs[column] = downMm + block.heightMm + columns.gapMm;
      return [{ block, sheet: 0, column, downMm }];
    });
  return { placed, leftOver };
};
