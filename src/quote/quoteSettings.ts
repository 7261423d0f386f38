import { z } from 'zod';
import { type QuoteTerms, quoteTermsSchema } from '../document/issueSettings.ts';

/** The terms of a quote with the day that it is of: an ISO 8601 calendar date. */
export const quoteSettingsSchema = quoteTermsSchema.unwrap().extend({ date: z.iso.date() }).readonly();
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

/** The terms until the office sets its own: thirty days, no discount, freight and installation and tax not included. */
export const standardQuoteTerms: QuoteTerms = {
  number: '',
  validDays: 30,
  discountBasisPoints: 0,
  freightMinor: null,
  installationMinor: null,
  tax: null,
  assumptions: standardAssumptions,
  exclusions: standardExclusions,
};

/** The standard terms on a day. */
export const defaultQuoteSettings = (date: string): QuoteSettings => ({ ...standardQuoteTerms, date });

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
