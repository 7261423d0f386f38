import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalFraction, ratedMoney } from '../../src/quote/exactPrice.ts';

describe('a price by length', () => {
  it('takes the written decimal, not the float: 1.005 is 1.01, where a float gives 1.00', () => {
    expect(ratedMoney({ base: 1.005, ratePerMm: 0, lengthMm: 0 }, 'EUR').minor).toBe(101);
    expect(Math.round(1.005 * 100)).toBe(100);
  });

  it('reads numbers that print with an exponent', () => {
    expect(decimalFraction(1e-7)).toEqual({ numerator: 1n, denominator: 10_000_000n });
    expect(decimalFraction(2.5e21)).toEqual({ numerator: 2_500_000_000_000_000_000_000n, denominator: 1n });
  });

  it('follows the minor unit of ISO 4217: none for JPY, three for KWD', () => {
    expect(ratedMoney({ base: 990.5, ratePerMm: 0, lengthMm: 0 }, 'JPY').minor).toBe(991);
    expect(ratedMoney({ base: 1.2345, ratePerMm: 0, lengthMm: 0 }, 'KWD').minor).toBe(1_235);
  });

  it('is the nearest cent, a half up, over whole ten-thousandths and micrometres', () => {
    fc.assert(
      fc.property(
        fc.nat(1_000_000),
        fc.nat(99_999),
        fc.nat(3_000_000),
        (baseCents, rateTenThousandths, lengthUm) => {
          const { minor } = ratedMoney(
            {
              base: baseCents / 100,
              ratePerMm: rateTenThousandths / 10_000,
              lengthMm: lengthUm / 1000,
            },
            'EUR',
          );
          // In units of 1/100 000 cent, all whole: the rest of the division decides.
          const exact = BigInt(baseCents) * 100_000n + BigInt(rateTenThousandths) * BigInt(lengthUm);
          const off = BigInt(minor) * 100_000n - exact;
          return off > -50_000n && off <= 50_000n;
        },
      ),
      { seed: 20_270_115, numRuns: 2_000 },
    );
  });
});
