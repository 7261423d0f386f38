import type { DrawingCut, DrawnPart, Shape } from './drawing.ts';

export interface PaperBox {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

export type TextRole = 'mark' | 'length' | 'total' | 'note' | 'callout' | 'level' | 'height' | 'end';

/** A text that has found its place, mm of paper. */
export interface SettledText<Part extends string = string> {
  readonly role: TextRole;
  readonly text: string;
  /** Follows the text in a lighter weight. */
  readonly quietText?: string;
  /** Where along its line it is held: mostly at its middle, in a column at its end, beside a mark at its start. */
  readonly x: number;
  readonly align: 'start' | 'middle' | 'end';
  readonly baseline: number;
  /** Height of its capitals. */
  readonly capitalMm: number;
  /** What the text takes up, with its frame where it has one; no two boxes of a drawing overlap. */
  readonly box: PaperBox;
  /** Whether it is set in a frame: a mark. */
  readonly isFramed: boolean;
  readonly part?: Part;
}

/** A drawing at a scale: everything in mm of paper, x to the right, y up, the floor at 0. */
export interface SettledDrawing<Part extends string = string> {
  /** Room mm per paper mm. */
  readonly ratio: number;
  /** By how much its lines are finer than their nominal weights. */
  readonly lineShare: number;
  /** Holds everything but the levels. */
  readonly bounds: PaperBox;
  /** Where the shapes are cut off: this is a part of a longer drawing. */
  readonly cutAt?: DrawingCut;
  readonly shapes: readonly Shape<Part>[];
  /** Dimension lines, ticks and leaders; drawn over the shapes, under the texts. */
  readonly rulings: readonly Shape<Part>[];
  readonly texts: readonly SettledText<Part>[];
  /** The heights, to the left of x = 0, which may stand beside the drawing or stay in view while it moves. */
  readonly levels: {
    readonly widthMm: number;
    readonly rulings: readonly Shape<Part>[];
    readonly texts: readonly SettledText<Part>[];
  };
  readonly parts: readonly DrawnPart<Part>[];
}

/** Lettering of the drawings: nominal size 1.8 mm of ISO 3098 (from memory), and the distances that go with it, in mm. */
export const lettering = {
  capitalMm: 1.8,
  /** What hangs below the baseline. */
  tailMm: 0.6,
  /** Clear of other texts on the same line. */
  gapMm: 0.9,
  framePadMm: 0.75,
  lineMm: 3,
} as const;

const { capitalMm, tailMm, framePadMm } = lettering;

/** Makes the text that stands at `x` on `baseline`, by its middle unless told otherwise, and is `widthMm` wide. */
export const settledText = <Part extends string>(
  role: TextRole,
  words: { readonly text: string; readonly quietText?: string | undefined; readonly part?: Part | undefined },
  place: { readonly x: number; readonly baseline: number; readonly widthMm: number },
  { isFramed = false, align = 'middle' }: Partial<Pick<SettledText, 'isFramed' | 'align'>> = {},
): SettledText<Part> => {
  const pad = isFramed ? framePadMm : 0;
  const left = place.x - { start: 0, middle: place.widthMm / 2, end: place.widthMm }[align];
  return {
    role,
    text: words.text,
    ...(words.quietText ? { quietText: words.quietText } : {}),
    x: place.x,
    align,
    baseline: place.baseline,
    capitalMm,
    isFramed,
    box: {
      left,
      right: left + place.widthMm,
      bottom: place.baseline - (isFramed ? pad : tailMm),
      top: place.baseline + capitalMm + pad,
    },
    ...(words.part === undefined ? {} : { part: words.part }),
  };
};
