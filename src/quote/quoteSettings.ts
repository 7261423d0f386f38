import { z } from 'zod';

const minor = z.int().min(0).max(1_000_000_000_000);
const basisPoints = z.int().min(0).max(10_000);
const sentence = z.string().min(1).max(500);

/**
 * What a quote says beside what the fit and the range decide. Amounts are whole minor units (cents) of the range's
 * currency, shares whole basis points (1/100 %), dates ISO 8601 calendar dates.
 */
export const quoteSettingsSchema = z
  .strictObject({
    number: z.string().max(60),
    date: z.iso.date(),
    validDays: z.int().min(1).max(730),
    /** Off all goods and extras; not off freight or installation. */
    discountBasisPoints: basisPoints,
    /** Null: not included, and the quote says so. */
    freightMinor: minor.nullable(),
    installationMinor: minor.nullable(),
    /** Null: prices are without tax, and the quote says so. */
    tax: z
      .strictObject({ name: z.string().min(1).max(40), basisPoints })
      .readonly()
      .nullable(),
    assumptions: z.array(sentence).max(50).readonly(),
    exclusions: z.array(sentence).max(50).readonly(),
  })
  .readonly();
export type QuoteSettings = z.infer<typeof quoteSettingsSchema>;

/** What a quote takes for granted unless it is told otherwise. */
export const standardAssumptions: readonly string[] = [
  'Lengths are measured from the drawing and are subject to a site measure before ordering.',
  'Floor and walls are finished, level and square before the first piece stands.',
  'The way in is as stated; every piece reaches the bar by it.',
  'Services come up where the services schedule has them before installation begins.',
];

/** What a quote leaves out unless it is told otherwise. */
export const standardExclusions: readonly string[] = [
  'Connection of water, drains, electricity, data, beer lines and gas: by licensed trades.',
  'Building work, making good, cladding and its frame.',
  'Equipment placed in openings and bays.',
  'Disposal of existing counters.',
];

/** Settings of a quote of a day: thirty days, no discount, freight and installation and tax not included. */
export const defaultQuoteSettings = (date: string): QuoteSettings => ({
  number: '',
  date,
  validDays: 30,
  discountBasisPoints: 0,
  freightMinor: null,
  installationMinor: null,
  tax: null,
  assumptions: standardAssumptions,
  exclusions: standardExclusions,
});

/**
 * The last day of a quote: so many days after its date, both as ISO 8601 calendar dates.
 *
 * @example validUntil('2027-02-27', 3) // '2027-03-02'
 */
export const validUntil = (date: string, days: number): string => {
  const from = Date.parse(`${date}T00:00:00Z`);
  if (Number.isNaN(from)) throw new RangeError(`Not a calendar date: "${date}"`);
  return new Date(from + days * 86_400_000).toISOString().slice(0, 10);
};
