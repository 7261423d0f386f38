import type { TextRun } from '../sheet/textRun.ts';
import type { Supporter } from './voter.ts';

/** A total dimension whose chain of parts adds up to something else. Lengths in mm, as written. */
export interface BrokenChain {
  readonly total: TextRun;
  readonly totalMm: number;
  readonly sumMm: number;
  readonly parts: readonly TextRun[];
}

/** Ends closer than this are one place, in uncertainties of a drawn end. */
const SAME_PLACE = 10;

interface Along {
  readonly supporter: Supporter;
  /** Across the direction: which line the dimension stands on. */
  readonly offset: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Finds chains that do not add up: dimensions one behind the other on a line, from end to end of another dimension
 * that runs beside them. Rounding explains half a step for each part and the total; more is news.
 */
export const findBrokenChains = (supporters: readonly Supporter[]): readonly BrokenChain[] => {
  const broken: BrokenChain[] = [];
  for (const group of byDirection(supporters)) {
    for (const total of group) {
      const parts = partsOf(total, group);
      if (!parts) continue;
      const sumMm = parts.reduce((sum, { supporter }) => sum + supporter.voter.value, 0);
      const rounding = [total, ...parts].reduce((sum, { supporter }) => sum + supporter.voter.step / 2, 0);
      const totalMm = total.supporter.voter.value;
      if (Math.abs(sumMm - totalMm) <= rounding + 1e-6) continue;
      broken.push({
        total: total.supporter.voter.text,
        totalMm,
        sumMm,
        parts: parts.map(({ supporter }) => supporter.voter.text),
      });
    }
  }
  return broken;
};

/** Dimensions grouped by their direction, within a degree. */
const byDirection = (supporters: readonly Supporter[]): readonly (readonly Along[])[] => {
  const groups: { readonly ux: number; readonly uy: number; readonly members: Along[] }[] = [];
  for (const supporter of supporters) {
    const { a, b, length } = supporter.span;
    const dx = (b.x - a.x) / length;
    const dy = (b.y - a.y) / length;
    let group = groups.find(({ ux, uy }) => Math.abs(ux * dy - uy * dx) < 0.0175);
    if (!group) {
      group = { ux: dx, uy: dy, members: [] };
      groups.push(group);
    }
    const { ux, uy } = group;
    const first = ux * a.x + uy * a.y;
    const second = ux * b.x + uy * b.y;
    group.members.push({
      supporter,
      offset: ux * a.y - uy * a.x,
      from: Math.min(first, second),
      to: Math.max(first, second),
    });
  }
  return groups.map(({ members }) => members);
};

/** The chain on one line that covers a total from end to end without a gap; null where there is none. */
const partsOf = (total: Along, group: readonly Along[]): readonly Along[] | null => {
  const near = SAME_PLACE * total.supporter.voter.endUncertainty;
  for (const start of group) {
    if (start === total || Math.abs(start.from - total.from) > near || start.to > total.to - near) continue;
    const parts = [start];
    let end = start.to;
    while (end < total.to - near) {
      const next = group.find(
        (other) =>
          Math.abs(other.offset - start.offset) < near &&
          Math.abs(other.from - end) < near &&
          other.to > end + near,
      );
      if (!next) break;
      parts.push(next);
      end = next.to;
    }
    if (parts.length > 1 && Math.abs(end - total.to) <= near) return parts;
  }
  return null;
};
