import type { TextRun } from './textRun.ts';

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/**
 * Joins neighbouring runs that stand on one baseline into one: programs place letters or words one by one. A small
 * raised digit right behind a number becomes a superscript, as on masonry drawings (36⁵).
 *
 * Only runs that follow each other in drawing order are joined.
 */
export const joinText = (runs: readonly TextRun[]): readonly TextRun[] => {
  const joined: TextRun[] = [];
  for (const run of runs) {
    const last = joined.at(-1);
    const together = last && join(last, run);
    if (together) joined[joined.length - 1] = together;
    else joined.push(run);
  }
  return joined;
};

const join = (first: TextRun, second: TextRun): TextRun | null => {
  if (first.layer !== second.layer) return null;
  const turn = Math.abs(first.angleRad - second.angleRad);
  if (Math.min(turn, 2 * Math.PI - turn) > 0.01) return null;
  const cosine = Math.cos(first.angleRad);
  const sine = Math.sin(first.angleRad);
  const dx = second.origin.x - first.origin.x;
  const dy = second.origin.y - first.origin.y;
  const along = dx * cosine + dy * sine;
  const up = (dy * cosine - dx * sine) / first.size;
  const gap = (along - first.width) / first.size;
  const width = Math.max(first.width, along + second.width);
  const sizes = second.size / first.size;
  const isRaisedDigit =
    sizes < 0.85 &&
    up > 0.1 &&
    up < 0.8 &&
    gap > -0.2 &&
    gap < 0.25 &&
    /\d$/.test(first.text) &&
    /^\d$/.test(second.text);
  if (isRaisedDigit) return { ...first, text: first.text + SUPERSCRIPTS[Number(second.text)], width };
  const isOneLine = sizes > 0.9 && sizes < 1.1 && Math.abs(up) < 0.05 && gap > -0.25 && gap < 0.5;
  if (!isOneLine) return null;
  const space = gap > 0.18 && !/\s$/.test(first.text) && !/^\s/.test(second.text) ? ' ' : '';
  return { ...first, text: first.text + space + second.text, width };
};
