import type { StockItem, StockRange } from './stockSchema.ts';

/**
 * How many frames an item stands on: its own count where the range gives one, else the range's rule for its width.
 * Only a standing piece has frames of its own. A piece wider than the rule's last line gets that line's count.
 *
 * @example framesOf(demoRange, module2100) // 3
 */
export const framesOf = (
  range: StockRange,
  item: Pick<StockItem, 'widthMm' | 'support' | 'frames'>,
): number => {
  if (item.frames !== undefined) return item.frames;
  if (item.support !== 'standing') return 0;
  const rules = range.frame.countByWidth;
  return (rules.find((rule) => item.widthMm <= rule.upToMm) ?? rules[rules.length - 1]!).frames;
};
