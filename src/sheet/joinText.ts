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
  if (first.layer !== second.layer || first.isInvisible !== second.isInvisible) return null;
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
    /^\d{1,2}$/.test(second.text);
  if (isRaisedDigit) {
    const raised = [...second.text].map((digit) => SUPERSCRIPTS[Number(digit)]).join('');
    return { ...first, text: first.text + raised, width };
  }
  const fraction =
    sizes < 1.1 && up > -0.6 && up < 0.2 && gap > -1.3 && gap < 0.3 && withFraction(first.text, second.text);
  if (fraction) return { ...first, text: fraction, width };
  const isOneLine = sizes > 0.9 && sizes < 1.1 && Math.abs(up) < 0.05 && gap > -0.25 && gap < 0.5;
  if (!isOneLine) return null;
  const space = gap > 0.18 && !/\s$/.test(first.text) && !/^\s/.test(second.text) ? ' ' : '';
  return { ...first, text: first.text + space + second.text, width };
};

/** Denominators of an inch. */
const INCH_PARTS = ['2', '4', '8', '16', '32', '64'];

/** A raised numerator with the denominator, or the stroke before it, that stands under or behind it: `8¹` and `4`. */
const withFraction = (before: string, part: string): string | undefined => {
  const [, whole = '', raised = '', stroke = ''] = /^(.*?)([⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2})(\/?)$/.exec(before) ?? [];
  const [, ownStroke = '', under = ''] = /^([/⁄]?)(\d{0,2})$/.exec(part) ?? [];
  if (raised === '') return undefined;
  if (under === '') return ownStroke !== '' && stroke === '' ? `${before}/` : undefined;
  if (!INCH_PARTS.includes(under)) return undefined;
  const upper = [...raised].map((sign) => SUPERSCRIPTS.indexOf(sign)).join('');
  return `${whole} ${upper}/${under}`;
};
