import type { StockItem, StockRange } from './stockSchema.ts';

/** A name or an id without the words that say its hand. */
const handless = (text: string): string =>
  text
    .toLowerCase()
    .replace(/(?<![a-z])(left|right)([- ]?hand(ed)?)?(?![a-z])/g, '')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/**
 * The item of a range that is another one's mirror image: the same kind, size and support, of the same
 * `handOf` where it says one, else called the same but for its hand. Undefined where the range has none, or where the item has no hand.
 */
export const otherHandOf = (range: StockRange, item: StockItem): StockItem | undefined =>
  item.hand === undefined
    ? undefined
    : range.items.find(
        (one) =>
          one.hand !== undefined &&
          one.hand !== item.hand &&
          one.kind === item.kind &&
          one.support === item.support &&
          one.widthMm === item.widthMm &&
          one.depthMm === item.depthMm &&
          same(one.beside, item.beside) &&
          same(one.clearOf, item.clearOf) &&
          (item.handOf !== undefined
            ? one.handOf === item.handOf
            : handless(one.name) === handless(item.name) || handless(one.id) === handless(item.id)),
      );
