import { describe, expect, it } from 'vitest';
import { extrasOfRun } from '../../src/quote/extras.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { quoteOf } from '../../src/quote/quote.ts';
import { defaultQuoteSettings } from '../../src/quote/quoteSettings.ts';
import { extraRows, scheduleOfRun } from '../../src/quote/schedule.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { problemFor, quotedRun, quotedWith } from './quotedBar.ts';

const settings = {
  ...defaultQuoteSettings('2027-01-15'),
  discountBasisPoints: 750,
  freightMinor: 48_000,
  installationMinor: 160_000,
  tax: { name: 'VAT', basisPoints: 2_100 },
};
const front = quotedRun('Front bar', 1, problemFor([6_248.5, 3_130]));
const back = quotedRun('Back bar', 2, problemFor([4_335]));
const quote = quoteOf([front, back], demoRange, settings);

const scheduleCents = (run: typeof front): number => {
  const marks = pieceMarks(run.number, run.alternative);
  const rows = [
    ...scheduleOfRun(run, run.alternative, demoRange, marks),
    ...extraRows(run, extrasOfRun(run.problem, run.alternative, demoRange, marks)),
  ];
  return rows.reduce((cents, { price }) => cents + Math.round((price ?? 0) * 100), 0);
};

describe('a quote', () => {
  it('comes to what the schedule comes to, before discount, freight, installation and tax', () => {
    const random = seededRandom(7_2027);
    const cases = campaignSize({ sample: 12, full: 200 });
    for (let round = 0; round < cases; round += 1) {
      const lengthsMm = Array.from(
        { length: random.integer(1, 2) },
        () => random.integer(15_000, 90_000) / 10,
      );
      const run = quotedRun('Bar', 1, problemFor(lengthsMm));
      for (const alternative of [run.alternative, ...run.others]) {
        const own = quotedWith(run, alternative);
        const { lines, totals } = quoteOf([own], demoRange, settings);
        // A leftover that the range makes no module for may still be had by widening the module beside it.
        const widened = lines.reduce(
          (sum, { kind, amount }) => sum + (kind === 'widening' ? (amount?.minor ?? 0) : 0),
          0,
        );
        // The schedule rounds floats: half a cent may fall either way for each line by length.
        const away = Math.abs(totals.goods.minor - widened - scheduleCents(own));
        const byLength = lines.filter(({ price }) => (price?.ratePerMm ?? 0) > 0).length;
        expect(away, `lengths ${lengthsMm.join(', ')}`).toBeLessThanOrEqual(byLength);
      }
    }
  });

  it('adds up by hand: goods less 7.5 %, plus freight and installation, plus 21 %', () => {
    const goods = quote.lines.reduce((sum, { amount }) => sum + (amount?.minor ?? 0), 0);
    const discount = Math.round((goods * 75) / 1000);
    const net = goods - discount + 48_000 + 160_000;
    expect(quote.totals.goods.minor).toBe(goods);
    expect(quote.totals.net.minor).toBe(net);
    expect(Math.abs(quote.totals.total.minor - net * 1.21)).toBeLessThanOrEqual(0.5);
  });

  it('joins equal pieces of a run into one line with all their marks', () => {
    for (const { kind, quantity, marks } of quote.lines)
      if (kind === 'piece') expect(marks.length).toBe(quantity);
    const pieces = quote.lines.filter(({ kind }) => kind === 'piece');
    const count = pieces.reduce((sum, { quantity }) => sum + quantity, 0);
    expect(count).toBe(front.alternative.pieces.length + back.alternative.pieces.length);
  });

  it('puts other fits side by side with what each changes in the whole total', () => {
    const ofFront = quote.options.filter(({ run }) => run === 'Front bar');
    expect(ofFront.map(({ letter }) => letter).join('')).toBe('ABC'.slice(0, 1 + front.others.length));
    expect(ofFront[0]).toMatchObject({ isQuoted: true, difference: { minor: 0 } });
    for (const [index, option] of ofFront.slice(1).entries()) {
      const swapped = quoteOf([quotedWith(front, front.others[index]!), back], demoRange, settings);
      expect(option.total).toEqual(swapped.totals.total);
      expect(option.difference.minor).toBe(swapped.totals.total.minor - quote.totals.total.minor);
    }
  });

  it('names what has no price, asks for it, and sums without it', () => {
    const dear = demoRange.items.map((item) => {
      const { price, ...rest } = item;
      return item.kind === 'module' ? rest : { ...rest, ...(price === undefined ? {} : { price }) };
    });
    const unpriced = quoteOf([back], { ...demoRange, items: dear }, settings);
    expect(unpriced.withoutPrice.length).toBeGreaterThan(0);
    expect(unpriced.questions.join(' ')).toContain('has no price in the range');
    expect(unpriced.totals.goods.minor).toBeLessThan(quoteOf([back], demoRange, settings).totals.goods.minor);
  });

  it('carries the fit’s open questions and says what is left out', () => {
    expect(quote.questions).toEqual(
      [front, back].flatMap(({ name, questions }) => questions.map((question) => `${name}: ${question}`)),
    );
    const bare = quoteOf([back], demoRange, defaultQuoteSettings('2027-01-15'));
    expect(bare.exclusions.join(' ')).toMatch(/Freight.*Installation.*Tax/);
    expect(bare.assumptions.join(' ')).toContain('invented');
  });

  it('offers a wider module in place of a made-to-measure one, at the range’s price', () => {
    const run = quotedRun(
      'Short bar',
      3,
      problemFor([2_000], { ends: [{ kind: 'wall' }, { kind: 'wall' }], fillerMaxMm: 20 }),
    );
    const { offers, lines } = quoteOf([run], demoRange, settings);
    const made = lines.find(({ kind }) => kind === 'made-to-measure');
    // 2000 less 2 x 10 scribe is 1980: an 1800 and 180 mm over, made at 620 + 0.75 x 180 or 390 for the widening.
    expect(made?.amount?.minor).toBe(75_500);
    expect(offers[0]).toMatch(/1980 mm wide for EUR.390\.00.*EUR.755\.00/u);
  });

  it('offers no module wider than what may come in', () => {
    const run = quotedRun(
      'Short bar',
      3,
      problemFor([2_000], { ends: [{ kind: 'wall' }, { kind: 'wall' }], fillerMaxMm: 20, maxWidthMm: 1_900 }),
    );
    expect(run.alternative.leftovers.map(({ verdict }) => verdict)).toContain('made-to-measure');
    expect(quoteOf([run], demoRange, settings).offers).toEqual([]);
  });

  it('asks for the price of a filler wider than the range’s', () => {
    const run = quotedRun(
      'Short bar',
      3,
      problemFor([2_000], { ends: [{ kind: 'wall' }, { kind: 'wall' }], fillerMaxMm: 250 }),
    );
    const narrow = { ...demoRange, fillers: { ...demoRange.fillers, maxMm: 50 } };
    const filler = quoteOf([run], narrow, settings).lines.find(({ kind }) => kind === 'filler');
    expect(filler).toMatchObject({ price: null, amount: null });
  });
});
