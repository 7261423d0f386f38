import { describe, expect, it } from 'vitest';
import { type LowSectionSize, lowSectionRules } from '../../src/measure/lowSectionRules.ts';

/** 2010 ADA Standards for Accessible Design: inches are normative; 1 in = 25.4 mm. */
const inch = 25.4;

const low = (changes: Partial<LowSectionSize> = {}): LowSectionSize => ({
  lengthMm: 1000,
  lengthPlusMinusMm: 0,
  topHeightMm: 850,
  topThicknessMm: 40,
  depthMm: 700,
  runLengthMm: 6000,
  ...changes,
});

const ruleOf = (size: LowSectionSize, source: string) => {
  const found = lowSectionRules(size).find((rule) => rule.source.includes(source));
  if (!found) throw new Error(`no rule ${source}`);
  return found;
};

describe('a low section beside 2010 ADA Standards 904.4.1', () => {
  // "a portion of the counter surface that is 36 inches (915 mm) long minimum and 36 inches (915 mm) high maximum"
  it('is met by exactly 36 in long and 36 in high', () => {
    const rule = ruleOf(low({ lengthMm: 36 * inch, topHeightMm: 36 * inch }), '904.4.1');
    expect(rule.verdict).toBe('met');
    expect(rule.checks.map(({ marginMm }) => Math.abs(marginMm) < 1e-9)).toEqual([true, true]);
  });

  it('is missed by a sixteenth of an inch, and says by how much', () => {
    const short = ruleOf(low({ lengthMm: (36 - 1 / 16) * inch }), '904.4.1');
    expect(short.verdict).toBe('missed');
    expect(short.checks[0]?.marginMm).toBeCloseTo(-inch / 16, 6);
    const high = ruleOf(low({ topHeightMm: (36 + 1 / 16) * inch }), '904.4.1');
    expect(high.checks[1]?.verdict).toBe('missed');
  });

  // "Where the provided counter surface is less than 36 inches long, the entire counter surface shall be 36 in high maximum"
  it('asks no more length than the whole counter has', () => {
    expect(ruleOf(low({ lengthMm: 800, runLengthMm: 800 }), '904.4.1').verdict).toBe('met');
  });

  it('is unsure where only the drawing’s uncertainty decides', () => {
    expect(ruleOf(low({ lengthMm: 36 * inch + 5, lengthPlusMinusMm: 10 }), '904.4.1').verdict).toBe('unsure');
    expect(ruleOf(low({ lengthMm: 36 * inch - 5, lengthPlusMinusMm: 10 }), '904.4.1').verdict).toBe('unsure');
    expect(ruleOf(low({ lengthMm: 36 * inch - 11, lengthPlusMinusMm: 10 }), '904.4.1').verdict).toBe(
      'missed',
    );
  });
});

describe('a low section beside the other rules', () => {
  it('takes 904.4.2 with 27 in of knee room under the top (306.3)', () => {
    const size = low({ lengthMm: 30 * inch, topHeightMm: 27 * inch + 40 });
    expect(ruleOf(size, '904.4.2').verdict).toBe('met');
    expect(ruleOf({ ...size, topThicknessMm: 41 }, '904.4.2').checks[2]?.marginMm).toBeCloseTo(-1, 6);
  });

  it('holds a dining surface between 28 and 34 in (902.3)', () => {
    for (const [topHeightMm, verdict] of [
      [28 * inch - 1, 'missed'],
      [28 * inch, 'met'],
      [34 * inch, 'met'],
      [34 * inch + 1, 'missed'],
    ] as const)
      expect(ruleOf(low({ topHeightMm }), '902.3').verdict).toBe(verdict);
  });

  it('asks 5 % of a long bar and 30 in of a short one (226.1, 305.3)', () => {
    // 5 % of 20 m is 1 000 mm; of 6 m it would be 300 mm, less than one clear floor space.
    expect(ruleOf(low({ runLengthMm: 20_000 }), '902.3').checks[0]?.neededMm).toBeCloseTo(1000, 9);
    expect(ruleOf(low({ runLengthMm: 6000 }), '902.3').checks[0]?.neededMm).toBeCloseTo(762, 9);
  });

  it('holds an English bar to 850 mm and a reception counter to 760 mm over 1 500 mm', () => {
    expect(ruleOf(low({ topHeightMm: 850 }), '4.16').verdict).toBe('met');
    expect(ruleOf(low({ topHeightMm: 851 }), '4.16').verdict).toBe('missed');
    expect(ruleOf(low({ topHeightMm: 760, lengthMm: 1500 }), '3.6').verdict).toBe('met');
    expect(ruleOf(low({ topHeightMm: 760, lengthMm: 1499 }), '3.6').verdict).toBe('missed');
  });

  it('says which figures are from memory', () => {
    const remembered = lowSectionRules(low())
      .filter(({ isFromMemory }) => isFromMemory)
      .map(({ source }) => source.split(',')[0]);
    expect(remembered).toEqual([
      '2010 ADA Standards 904.4.2',
      'Approved Document M vol. 2',
      'Approved Document M vol. 2',
      'ISO 21542:2011',
    ]);
  });
});
