import { z } from 'zod';

const minor = z.int().min(0).max(1_000_000_000_000);
const basisPoints = z.int().min(0).max(10_000);
const sentence = z.string().min(1).max(500);
const name = z.string().max(200);

/**
 * What a quote says beside what the fit and the range decide, without its date. Amounts are whole minor units (cents) of
 * the range's currency, shares whole basis points (1/100 %).
 */
export const quoteTermsSchema = z
  .strictObject({
    number: z.string().max(60),
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

/** What goes out for: the words stand in the title block's document status (ISO 7200, 5.2.2). */
export const issuePurposes = ['information', 'tender', 'approval', 'construction', 'as-built'] as const;

/** What the title block of an issue says beside what the project decides; the fields of ISO 7200. */
export const issueSettingsSchema = z
  .strictObject({
    legalOwner: name,
    creator: name,
    approver: name,
    responsibleDepartment: name,
    purpose: z.enum(issuePurposes),
    paper: z.enum(['iso', 'us']),
  })
  .readonly();

export type QuoteTerms = z.infer<typeof quoteTermsSchema>;
export type IssueSettings = z.infer<typeof issueSettingsSchema>;
