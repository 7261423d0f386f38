import type { Point } from '../../geometry/point.ts';

export interface PlacedLine {
  readonly text: string;
  /** The middle of the line's capitals. */
  readonly at: Point;
  readonly angleRad: number;
  /** Height of its capitals. */
  readonly height: number;
  readonly width: number;
}

export interface Lettering {
  /** Width of a text whose capitals are `height` high. */
  readonly widthOf: (text: string, height: number) => number;
  readonly most: number;
  readonly least: number;
}

/** From line to line, and clear of the ring's edges, in capital heights. */
const lineStep = 1.75;
const edge = 0.45;

/** The direction, or its opposite, in which text reads upright: from the foot of the sheet or from its right edge. */
export const uprightAngle = (angleRad: number): number => {
  const turn = ((angleRad % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const isUpsideDown = turn > Math.PI / 2 + 1e-6 && turn <= (3 * Math.PI) / 2 + 1e-6;
  return isUpsideDown ? turn - Math.PI : turn > Math.PI ? turn - 2 * Math.PI : turn;
};

/** The mean of a ring's points: inside a convex ring. */
export const middleOf = (ring: readonly Point[]): Point => ({
  x: ring.reduce((sum, { x }) => sum + x, 0) / ring.length,
  y: ring.reduce((sum, { y }) => sum + y, 0) / ring.length,
});

/** Lines of text one below the other, around a point. */
export const stackedLines = (
  lines: readonly string[],
  at: Point,
  angleRad: number,
  height: number,
  widthOf: Lettering['widthOf'],
): readonly PlacedLine[] =>
  lines.map((text, index) => {
    const up = ((lines.length - 1) / 2 - index) * height * lineStep;
    return {
      text,
      at: { x: at.x - Math.sin(angleRad) * up, y: at.y + Math.cos(angleRad) * up },
      angleRad,
      height,
      width: widthOf(text, height),
    };
  });

/**
 * Letters in a four-cornered ring as large as they fit, at most `most` high: along its front edge (the first two
 * corners), else turned towards its back. Null where they would be smaller than `least`.
 */
export const ringLettering = (
  ring: readonly Point[],
  lines: readonly string[],
  { widthOf, most, least }: Lettering,
): readonly PlacedLine[] | null => {
  const [start, end, , back] = ring;
  if (!start || !end || !back || lines.length === 0) return null;
  const width = Math.hypot(end.x - start.x, end.y - start.y);
  const depth = Math.hypot(back.x - start.x, back.y - start.y);
  const longest = Math.max(...lines.map((text) => widthOf(text, 1)));
  const roomFor = (along: number, across: number): number =>
    Math.min(most, along / (longest + 2 * edge), across / ((lines.length - 1) * lineStep + 1 + 2 * edge));
  const frontRad = Math.atan2(end.y - start.y, end.x - start.x);
  const ways = [
    { angleRad: uprightAngle(frontRad), height: roomFor(width, depth) },
    { angleRad: uprightAngle(frontRad + Math.PI / 2), height: roomFor(depth, width) },
  ];
  // Along the front wherever that is as good as full size; else whichever way is larger.
  const best = ways[0]!.height >= most * 0.8 || ways[0]!.height >= ways[1]!.height ? ways[0]! : ways[1]!;
  return best.height < least
    ? null
    : stackedLines(lines, middleOf(ring), best.angleRad, best.height, widthOf);
};
