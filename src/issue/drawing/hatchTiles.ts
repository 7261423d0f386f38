import type { HatchKind } from './drawing.ts';
import type { XY } from './drawnPath.ts';

/** One square tile of a hatch, mm of paper; tiles repeat seamlessly and are turned as a whole. */
export interface HatchTile {
  readonly sizeMm: number;
  /** Anticlockwise on the paper. */
  readonly turnDeg: number;
  /** Chains of points within the tile. */
  readonly strokes: readonly (readonly XY[])[];
  readonly strokeMm: number;
  readonly dots: readonly { readonly at: XY; readonly radiusMm: number }[];
  /** `mark`: drawn in the colour of what asks for a decision; else in that of lines. */
  readonly tone: 'line' | 'mark';
}

/** A row of level strokes at these heights, from edge to edge. */
const level = (sizeMm: number, ...heights: readonly number[]): readonly (readonly XY[])[] =>
  heights.map((y) => [
    [0, y],
    [sizeMm, y],
  ]);

/**
 * The hatches, each told apart without colour: a section, even strokes at 45 degrees (ISO 128-50 hatches cuts so, from
 * memory); blocked, pairs of strokes; closes, dots; filler, single strokes; made to measure, crossed strokes;
 * insulation, a zigzag; a bay, upright strokes; a low section, level ones. Which stands for what beyond the section is
 * our own.
 */
export const hatchTiles: Readonly<Record<HatchKind, HatchTile>> = {
  section: { sizeMm: 1.5, turnDeg: 45, strokes: level(1.5, 0.75), strokeMm: 0.18, dots: [], tone: 'line' },
  blocked: {
    sizeMm: 2.4,
    turnDeg: 45,
    strokes: level(2.4, 0.6, 1.2),
    strokeMm: 0.13,
    dots: [],
    tone: 'line',
  },
  filler: { sizeMm: 1.1, turnDeg: 45, strokes: level(1.1, 0.55), strokeMm: 0.25, dots: [], tone: 'mark' },
  'made-to-measure': {
    sizeMm: 1.5,
    turnDeg: 45,
    strokes: [
      ...level(1.5, 0.75),
      [
        [0.75, 0],
        [0.75, 1.5],
      ],
    ],
    strokeMm: 0.25,
    dots: [],
    tone: 'mark',
  },
  closes: {
    sizeMm: 1.1,
    turnDeg: 45,
    strokes: [],
    strokeMm: 0,
    dots: [{ at: [0.55, 0.55], radiusMm: 0.18 }],
    tone: 'mark',
  },
  bay: { sizeMm: 2, turnDeg: 90, strokes: level(2, 1), strokeMm: 0.13, dots: [], tone: 'line' },
  low: { sizeMm: 2, turnDeg: 0, strokes: level(2, 1), strokeMm: 0.13, dots: [], tone: 'line' },
  insulation: {
    sizeMm: 1,
    turnDeg: 0,
    strokes: [
      [
        [0, 0],
        [0.5, 1],
        [1, 0],
      ],
    ],
    strokeMm: 0.13,
    dots: [],
    tone: 'line',
  },
};
