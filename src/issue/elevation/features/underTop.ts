import { body, content, detail, edge, hidden, outline, panel, recess } from '../pieceStyles.ts';
import { type DrawFeature, type ElevationPen, shared } from './drawFeature.ts';

/** What stands, hangs or slides under a working top. */

const shelfLip = 34;

/** An undershelf between the legs: a folded sheet on the lower rail. */
export const drawShelf: DrawFeature = (pen, { from, to }, { railBottom }) => {
  pen.box(from, railBottom, to, railBottom + shelfLip, body);
  pen.line(
    [
      [from, railBottom + shelfLip - 8],
      [to, railBottom + shelfLip - 8],
    ],
    edge,
  );
};

interface BottleShape {
  readonly share: number;
  readonly shoulder: number;
  readonly neckFoot: number;
  readonly mouth: number;
}

/** Three common bottles: round-shouldered, square, slender; heights in mm, the body's width as a share. */
const bottleShapes: readonly BottleShape[] = [
  { share: 1, shoulder: 176, neckFoot: 214, mouth: 286 },
  { share: 1, shoulder: 190, neckFoot: 204, mouth: 262 },
  { share: 0.86, shoulder: 158, neckFoot: 232, mouth: 300 },
];

const bottle = (
  pen: ElevationPen,
  centre: number,
  base: number,
  width: number,
  { share, shoulder, neckFoot, mouth }: BottleShape,
): void => {
  const half = (width * share) / 2;
  const neck = Math.min(12, half * 0.4);
  const point = (x: number, y: number) => ({ x: centre + x, y: base + y });
  const rise = (neckFoot - shoulder) * 0.8;
  pen.path(
    {
      start: point(-half, 0),
      steps: [
        { kind: 'line', to: point(-half, shoulder) },
        {
          kind: 'curve',
          c1: point(-half, shoulder + rise),
          c2: point(-neck, neckFoot - rise),
          to: point(-neck, neckFoot),
        },
        { kind: 'line', to: point(-neck, mouth) },
        { kind: 'line', to: point(neck, mouth) },
        { kind: 'line', to: point(neck, neckFoot) },
        {
          kind: 'curve',
          c1: point(neck, neckFoot - rise),
          c2: point(half, shoulder + rise),
          to: point(half, shoulder),
        },
        { kind: 'line', to: point(half, 0) },
      ],
      isClosed: true,
    },
    content,
  );
  pen.box(centre - half, base + 84, centre + half, base + 146, detail);
  // The pourer.
  pen.line(
    [
      [centre - 3, base + mouth],
      [centre - 3, base + mouth + 16],
      [centre + 8, base + mouth + 38],
    ],
    outline,
  );
};

/** A rail of bottles hung in front of the working side. */
export const drawSpeedRail: DrawFeature = (pen, { from, to, count }, { feet, underTop }) => {
  const base = feet + (underTop - feet) * 0.4;
  const pitch = (to - from - 24) / count;
  const width = Math.min(76, pitch * 0.84);
  for (const [index, { middle }] of shared(from + 12, to - 12, count).entries())
    bottle(pen, middle, base + 6, width, bottleShapes[index % bottleShapes.length]!);
  pen.box(from, base, to, base + 62, panel);
  pen.line(
    [
      [from, base + 52],
      [to, base + 52],
    ],
    edge,
  );
  for (const end of [from + 8, to - 8]) pen.box(end - 8, base, end + 8, base + 110, detail);
};

/** Glass baskets on pairs of runners, one above the other. */
export const drawBasketRack: DrawFeature = (pen, { from, to, count }, { railBottom, underTop, tube }) => {
  const top = underTop - tube - 6;
  const pitch = (top - railBottom) / count;
  const high = Math.min(112, pitch * 0.72);
  for (let level = 0; level < count; level += 1) {
    const runner = railBottom + level * pitch;
    pen.box(from - 24, runner, to + 24, runner + 9, detail);
    pen.polygon(
      [
        [from + 4, runner + 9],
        [to - 4, runner + 9],
        [to, runner + 9 + high],
        [from, runner + 9 + high],
      ],
      content,
    );
    for (const { from: rib } of shared(from, to, 7).slice(1))
      pen.line(
        [
          [rib, runner + 9],
          [rib, runner + 9 + high],
        ],
        edge,
      );
    pen.line(
      [
        [from + 1, runner + 9 + high * 0.55],
        [to - 1, runner + 9 + high * 0.55],
      ],
      edge,
    );
    pen.line(
      [
        [from, runner + 9 + high],
        [to, runner + 9 + high],
      ],
      outline,
    );
  }
};

/** A shelf dropped below the top between two cheeks, with the blender that it is for. */
export const drawBlenderShelf: DrawFeature = (pen, { from, to }, { top }) => {
  const shelf = top - 240;
  pen.box(from, shelf, to, top, recess);
  pen.box(from, shelf - 26, to, shelf, body);
  pen.box(from, shelf, from + 12, top, body);
  pen.box(to - 12, shelf, to, top, body);
  const centre = (from + to) / 2;
  pen.polygon(
    [
      [centre - 82, shelf],
      [centre - 62, shelf + 118],
      [centre + 62, shelf + 118],
      [centre + 82, shelf],
    ],
    panel,
  );
  pen.circle([centre, shelf + 52], 20, detail);
  pen.arc([centre + 66, shelf + 236], 46, -Math.PI / 2.3, Math.PI / 2.3, outline);
  pen.polygon(
    [
      [centre - 48, shelf + 118],
      [centre - 74, shelf + 346],
      [centre + 74, shelf + 346],
      [centre + 48, shelf + 118],
    ],
    { weight: 'medium', fill: 'content' },
  );
  for (const mark of [180, 230, 280])
    pen.line(
      [
        [centre - 30, shelf + mark],
        [centre + 4, shelf + mark],
      ],
      edge,
    );
  pen.rounded([centre - 66, shelf + 346, centre + 66, shelf + 372], { topRadius: 10 }, body);
};

/** Drawer fronts, one above the other, each with its grip. */
export const drawDrawer: DrawFeature = (pen, { from, to, count }, { railBottom, underTop }) => {
  const top = underTop - 6;
  const bottom = count === 1 ? top - 190 : railBottom;
  const pitch = (top - bottom) / count;
  for (let index = 0; index < count; index += 1) {
    const low = bottom + index * pitch + 4;
    const high = bottom + (index + 1) * pitch - 4;
    pen.box(from, low, to, high, panel);
    const grip = Math.min(150, (to - from) * 0.32);
    const middle = (from + to) / 2;
    pen.rounded(
      [middle - grip / 2, high - 44, middle + grip / 2, high - 26],
      { bottomRadius: 9, topRadius: 9 },
      detail,
    );
  }
};

/** A door: its leaf, its grip, and dashed lines that meet at the side on which it hangs. */
export const drawDoor: DrawFeature = (pen, { from, to, hand }, { railBottom, underTop }) => {
  const low = railBottom - 24;
  const high = underTop - 8;
  const hung = hand === 'left' ? from : to;
  const opens = hand === 'left' ? to : from;
  const inwards = hand === 'left' ? -1 : 1;
  pen.box(from, low, to, high, panel);
  pen.line(
    [
      [opens, low],
      [hung, (low + high) / 2],
      [opens, high],
    ],
    hidden,
  );
  const grip = opens + inwards * 34;
  pen.rounded([grip - 8, high - 210, grip + 8, high - 60], { bottomRadius: 8, topRadius: 8 }, detail);
};
