import { boxAround, boxHeight, boxWidth } from '../../geometry/box.ts';
import { distanceBetween } from '../../geometry/vector.ts';
import { straightCountOf, straightLineOf, type TracedRun } from '../../measure/tracedRun.ts';
import { PaperPen, type PaperPicture, type PenFont, type Rgb } from '../drawing/paperPen.ts';
import { isometricFaces, towardsViewer } from './isometric.ts';
import type { PrismLook, PrismStack } from './prism.ts';

/** The picture, its lower left corner at the origin, mm of paper; how large it came out. */
export interface BarPicture {
  readonly picture: PaperPicture;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Tints of the faces that lie up, brightest, and of those that face the viewer. Quiet greys and one warm wood for the shelf. */
const tints: Readonly<Record<PrismLook, { readonly up: Rgb; readonly side: Rgb }>> = {
  body: { up: [0.93, 0.94, 0.95], side: [0.83, 0.85, 0.87] },
  station: { up: [0.93, 0.94, 0.95], side: [0.78, 0.84, 0.88] },
  corner: { up: [0.93, 0.94, 0.95], side: [0.8, 0.82, 0.84] },
  leftover: { up: [0.93, 0.94, 0.95], side: [0.9, 0.86, 0.8] },
  top: { up: [0.97, 0.97, 0.98], side: [0.9, 0.91, 0.92] },
  shelf: { up: [0.87, 0.78, 0.66], side: [0.74, 0.63, 0.5] },
  fitting: { up: [0.75, 0.77, 0.79], side: [0.6, 0.63, 0.66] },
  recess: { up: [0.66, 0.69, 0.72], side: [0.66, 0.69, 0.72] },
};

const lineColour: Rgb = [0.25, 0.27, 0.29];

const shaded = ([red, green, blue]: Rgb, facing: number): Rgb => {
  const light = 0.82 + 0.18 * facing;
  return [red * light, green * light, blue * light];
};

/**
 * The turn of the floor for the picture: the longest front lies along an axis of it, and of the four views that leaves,
 * the one from which most of the customer faces is seen.
 */
export const turnFor = (runs: readonly TracedRun[]): number => {
  const fronts = runs.flatMap((run) =>
    Array.from({ length: straightCountOf(run) }, (_, index) => {
      const { start, end, along, towardsBack } = straightLineOf(run, index);
      return {
        length: distanceBetween(start, end),
        along,
        outward: { x: -towardsBack.x, y: -towardsBack.y },
      };
    }),
  );
  const longest = fronts.toSorted((one, other) => other.length - one.length)[0];
  if (!longest) return 0;
  const base = -Math.atan2(longest.along.y, longest.along.x);
  const seenFrom = (turn: number): number => {
    const viewer = towardsViewer(turn);
    return fronts.reduce(
      (sum, { length, outward }) => sum + length * Math.max(0, outward.x * viewer.x + outward.y * viewer.y),
      0,
    );
  };
  return [0, 1, 2, 3]
    .map((quarter) => base + (quarter * Math.PI) / 2)
    .reduce((best, turn) => (seenFrom(turn) > seenFrom(best) + 1e-9 ? turn : best));
};

/** Draws solids isometrically, as large as a field allows. Null where there is nothing to draw. */
export const barPicture = (
  font: PenFont,
  stacks: readonly PrismStack[],
  turnRad: number,
  field: { readonly widthMm: number; readonly heightMm: number },
): BarPicture | null => {
  const faces = isometricFaces(stacks, turnRad);
  const box = boxAround(faces.flatMap(({ ring }) => [...ring]));
  if (!box || boxWidth(box) <= 0) return null;
  const scale = Math.min(field.widthMm / boxWidth(box), field.heightMm / boxHeight(box));
  const pen = new PaperPen(font);
  for (const { ring, look, facing } of faces)
    pen.ring(
      ring.map(({ x, y }) => ({ x: (x - box.minX) * scale, y: (y - box.minY) * scale })),
      {
        fill: facing === 'up' ? tints[look].up : shaded(tints[look].side, facing),
        line: { widthMm: 0.13, colour: lineColour },
      },
    );
  return { picture: pen.picture(), widthMm: boxWidth(box) * scale, heightMm: boxHeight(box) * scale };
};
