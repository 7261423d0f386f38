/** A landscape sheet of paper, mm. */
export interface Paper {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
}

export type PaperSystem = 'iso' | 'us';

const inches = (name: string, width: number, height: number): Paper => ({
  name,
  widthMm: width * 25.4,
  heightMm: height * 25.4,
});

/** ISO 216 A series, and ANSI sizes of ASME Y14.1 (both from memory), smallest first. */
export const papers: Readonly<Record<PaperSystem, readonly Paper[]>> = {
  iso: [
    { name: 'A3', widthMm: 420, heightMm: 297 },
    { name: 'A2', widthMm: 594, heightMm: 420 },
    { name: 'A1', widthMm: 841, heightMm: 594 },
    { name: 'A0', widthMm: 1189, heightMm: 841 },
  ],
  us: [
    inches('ANSI B', 17, 11),
    inches('ANSI C', 22, 17),
    inches('ANSI D', 34, 22),
    inches('ANSI E', 44, 34),
  ],
};

/**
 * Preferred scales for buildings, largest first: reductions of ISO 5455:1979, clause 5 (list read in a copy), and the
 * US customary fractions of an inch to the foot (ratio = 12 / fraction). `words` is how the title block says it.
 */
export const preferredScales: Readonly<
  Record<PaperSystem, readonly { readonly ratio: number; readonly words: string }[]>
> = {
  iso: [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000].map((ratio) => ({ ratio, words: `1:${ratio}` })),
  us: [
    { ratio: 24, words: '1/2" = 1\'-0"' },
    { ratio: 48, words: '1/4" = 1\'-0"' },
    { ratio: 96, words: '1/8" = 1\'-0"' },
    { ratio: 192, words: '1/16" = 1\'-0"' },
    ...[40, 80, 200, 500, 1000].map((feet) => ({ ratio: feet * 12, words: `1" = ${feet}'-0"` })),
  ],
};

/** Preferred scales for sections and details: ISO 5455:1979 as above, and inches to the foot (1 1/2", 1", 3/4", 1/2"). */
export const sectionScales: typeof preferredScales = {
  iso: [10, 20, 50].map((ratio) => ({ ratio, words: `1:${ratio}` })),
  us: [
    { ratio: 8, words: '1 1/2" = 1\'-0"' },
    { ratio: 12, words: '1" = 1\'-0"' },
    { ratio: 16, words: '3/4" = 1\'-0"' },
    { ratio: 24, words: '1/2" = 1\'-0"' },
  ],
};

export interface ScaleOnPaper {
  readonly paper: Paper;
  readonly ratio: number;
  readonly scaleWords: string;
}

/**
 * The order in which a sheet and a scale are tried: by what a person on site would rather hold. The largest scale on
 * the two small sheets, then the next on the two small and the third, and so on; the largest paper comes last.
 */
export const scalesToTry = (system: PaperSystem): readonly ScaleOnPaper[] => {
  const sheets = papers[system];
  const scales = preferredScales[system];
  return scales.flatMap(({ ratio, words }, index) =>
    sheets
      .slice(0, index === 0 ? 2 : index < 3 ? 3 : 4)
      .map((paper) => ({ paper, ratio, scaleWords: words })),
  );
};
