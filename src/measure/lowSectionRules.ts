/**
 * A low section of a counter beside the published accessibility rules. Each rule is named with its source; the answer
 * says by how much it is met or missed. Which of them holds for a building is for the local code and the access officer.
 */

const inches = (count: number): number => count * 25.4;

/** What a low section is, in mm; +/- at k = 2. */
export interface LowSectionSize {
  readonly lengthMm: number;
  readonly lengthPlusMinusMm: number;
  /** Of its top above the customer's floor. */
  readonly topHeightMm: number;
  readonly topThicknessMm: number;
  /** Front to back: knee room under it can't be deeper. */
  readonly depthMm: number;
  /** The whole counter's length. */
  readonly runLengthMm: number;
}

/** One thing that a rule asks for. A length of less than nothing missing is a margin. */
export interface LowSectionCheck {
  readonly what: string;
  readonly asks: 'at-least' | 'at-most';
  readonly neededMm: number;
  readonly foundMm: number;
  /** How much there is to spare; negative where it is missed. */
  readonly marginMm: number;
  /** `unsure`: met or missed only within the drawing's uncertainty. */
  readonly verdict: 'met' | 'unsure' | 'missed';
}

export interface LowSectionRule {
  readonly name: string;
  readonly source: string;
  /** True where the figures are from memory and were not looked up in the published text. */
  readonly isFromMemory: boolean;
  readonly checks: readonly LowSectionCheck[];
  /** The worst of its checks. */
  readonly verdict: LowSectionCheck['verdict'];
  readonly note: string;
}

const check = (
  what: string,
  asks: LowSectionCheck['asks'],
  neededMm: number,
  foundMm: number,
  plusMinusMm: number,
): LowSectionCheck => {
  const marginMm = asks === 'at-least' ? foundMm - neededMm : neededMm - foundMm;
  // A typed height is exact to the last bits of float arithmetic.
  const verdict =
    marginMm - plusMinusMm >= -1e-6 ? 'met' : marginMm + plusMinusMm < -1e-6 ? 'missed' : 'unsure';
  return { what, asks, neededMm, foundMm, marginMm, verdict };
};

const rule = (
  name: string,
  source: string,
  checks: readonly LowSectionCheck[],
  more: { readonly isFromMemory: boolean; readonly note?: string },
): LowSectionRule => ({
  name,
  source,
  isFromMemory: more.isFromMemory,
  checks,
  verdict:
    (['missed', 'unsure'] as const).find((bad) => checks.some(({ verdict }) => verdict === bad)) ?? 'met',
  note: more.note ?? '',
});

/**
 * The rules in turn, each with its checks:
 *
 * - 2010 ADA Standards 904.4.1, parallel approach: 36 in long at least ("a portion of the counter surface that is 36
 *   inches (915 mm) long minimum and 36 inches (915 mm) high maximum"); a shorter counter is low as a whole.
 * - 904.4.2, forward approach: 30 in long at least, 36 in high at most, knee and toe clearance after 306 (from memory):
 *   306.3 knee room 27 in high, 306.2.3 at least 17 in deep under the element.
 * - 902.3 dining surfaces, a bar that is drunk at: 28 to 34 in; 226.1 at least 5 % of the places. As a length that is
 *   read as 5 % of the bar and never under the 30 in of one clear floor space (305.3): one consultant's reading.
 * - Approved Document M volume 2 (England), bars and serving counters: a part at most 850 mm high (4.16, from memory);
 *   reception counters: 1 500 mm wide at least, 760 mm high at most, knee recess 700 mm at least (3.6, from memory).
 * - ISO 21542:2011 clause 19, counters used seated: 740 to 800 mm, knee room 700 mm (from memory).
 *
 * Inches are normative in the ADA Standards; one is 25.4 mm here.
 */
export const lowSectionRules = (low: LowSectionSize): readonly LowSectionRule[] => {
  const kneeMm = low.topHeightMm - low.topThicknessMm;
  const atLeastLong = (neededMm: number) =>
    check('length', 'at-least', Math.min(neededMm, low.runLengthMm), low.lengthMm, low.lengthPlusMinusMm);
  const high = (neededMm: number) => check('top', 'at-most', neededMm, low.topHeightMm, 0);
  const knee = (neededMm: number) => check('knee room under the top', 'at-least', neededMm, kneeMm, 0);
  const shareMm = 0.05 * low.runLengthMm;
  return [
    rule(
      'Sales and service counter, approached from the side',
      '2010 ADA Standards 904.4.1',
      [atLeastLong(inches(36)), high(inches(36))],
      { isFromMemory: false, note: 'A 30 by 48 in clear floor space lies beside it.' },
    ),
    rule(
      'Sales and service counter, approached head on',
      '2010 ADA Standards 904.4.2, 306',
      [
        atLeastLong(inches(30)),
        high(inches(36)),
        knee(inches(27)),
        check('depth under the top', 'at-least', inches(17), low.depthMm, 0),
      ],
      { isFromMemory: true, note: 'Knee and toe room stay clear of frames and feet.' },
    ),
    rule(
      'Bar that is eaten or drunk at',
      '2010 ADA Standards 902.3, 226.1',
      [
        check(
          'length, as 5 % of the bar and never under 30 in',
          'at-least',
          Math.min(Math.max(inches(30), shareMm), low.runLengthMm),
          low.lengthMm,
          low.lengthPlusMinusMm,
        ),
        check('top', 'at-least', inches(28), low.topHeightMm, 0),
        high(inches(34)),
      ],
      {
        isFromMemory: false,
        note: '226.1 counts 5 % of the places; that as a length is one consultant’s reading.',
      },
    ),
    rule('Bar or serving counter', 'Approved Document M vol. 2, 4.16 (England)', [high(850)], {
      isFromMemory: true,
    }),
    rule(
      'Reception counter',
      'Approved Document M vol. 2, 3.6 (England)',
      [atLeastLong(1500), high(760), knee(700)],
      { isFromMemory: true },
    ),
    rule(
      'Counter used seated',
      'ISO 21542:2011, 19',
      [check('top', 'at-least', 740, low.topHeightMm, 0), high(800), knee(700)],
      { isFromMemory: true },
    ),
  ];
};

/** Said wherever the rules are shown. */
export const lowSectionCaution =
  'Which rule holds here is for the local code and the access officer: these are figures to start from, not a ruling.';
