import type { XY } from '../../drawing/drawnPath.ts';
import { body, content, detail, edge, outline } from '../pieceStyles.ts';
import { type DrawFeature, type ElevationPen, shared } from './drawFeature.ts';

/** What is let into a working top and hangs under it, seen through the open front. */

const rim = (pen: ElevationPen, from: number, to: number, top: number): void =>
  pen.box(from, top - 2, to, top + 6, body);

/** Tail, trap and the way out to the back. */
const trap = (pen: ElevationPen, centre: number, from: number, bottle: boolean): void => {
  pen.box(centre - 16, from - 58, centre + 16, from, detail);
  if (bottle) {
    pen.rounded([centre - 32, from - 150, centre + 32, from - 46], { bottomRadius: 14, topRadius: 8 }, body);
    pen.line(
      [
        [centre - 32, from - 122],
        [centre + 32, from - 122],
      ],
      edge,
    );
    pen.circle([centre, from - 82], 15, detail);
  } else {
    pen.arc([centre + 32, from - 58], 32 + 16, Math.PI, 2 * Math.PI, outline);
    pen.arc([centre + 32, from - 58], 32 - 16, Math.PI, 2 * Math.PI, edge);
    pen.box(centre + 48, from - 58, centre + 80, from - 20, detail);
  }
};

/** A hand basin: a round bowl on a bottle trap. */
export const drawBasin: DrawFeature = (pen, { from, to }, { top, underTop }) => {
  const centre = (from + to) / 2;
  const bottom = underTop - 135;
  trap(pen, centre, bottom, true);
  pen.rounded([from + 14, bottom, to - 14, underTop], { bottomRadius: 120 }, body);
  pen.arc([from + 14 + 120, bottom + 120], 104, Math.PI, Math.PI * 1.42, edge);
  rim(pen, from, to, top);
};

/** A wash sink: a deep square bowl with a basket waste and a tubular trap. */
export const drawSink: DrawFeature = (pen, { from, to }, { top, underTop }) => {
  const centre = (from + to) / 2;
  const bottom = underTop - 250;
  trap(pen, centre, bottom - 26, false);
  pen.rounded([centre - 45, bottom - 30, centre + 45, bottom], { bottomRadius: 10 }, body);
  pen.rounded([from + 8, bottom, to - 8, underTop], { bottomRadius: 28 }, body);
  pen.line(
    [
      [from + 24, underTop],
      [from + 24, bottom + 18],
      [to - 24, bottom + 18],
      [to - 24, underTop],
    ],
    edge,
  );
  rim(pen, from, to, top);
};

/** An insulated well: a jacket filled with insulation round the bin, ice in it, a lid and a drain. */
export const drawIceWell: DrawFeature = (pen, { from, to }, { top, underTop }) => {
  const bottom = underTop - 320;
  const wall = 34;
  const middle = (from + to) / 2;
  pen.box(middle - 16, bottom - 70, middle + 16, bottom, detail);
  pen.box(middle - 22, bottom - 50, middle + 22, bottom - 34, body);
  pen.box(from, bottom, to, underTop, { weight: 'medium', fill: 'face', hatch: 'insulation' });
  pen.box(from + wall, bottom + wall, to - wall, underTop, content);
  const cube = 44;
  const across = Math.max(1, Math.floor((to - from - 2 * wall - 20) / 66));
  for (const [row, lift] of [0, 56].entries())
    for (const [index, { middle: x }] of shared(from + wall + 8, to - wall - 8, across).entries()) {
      const angle = ((index * 37 + row * 23) % 60) - 30;
      pen.polygon(turnedSquare([x, bottom + wall + 34 + lift], cube / 2, (angle * Math.PI) / 180), detail);
    }
  pen.rounded([from + 6, top, to - 6, top + 16], { topRadius: 6 }, body);
  pen.rounded([middle - 42, top + 16, middle + 42, top + 30], { topRadius: 7 }, detail);
};

const turnedSquare = ([x, y]: XY, half: number, angle: number): readonly XY[] =>
  [45, 135, 225, 315].map((corner): XY => {
    const at = (corner * Math.PI) / 180 + angle;
    return [x + half * Math.SQRT2 * Math.cos(at) * 0.86, y + half * Math.SQRT2 * Math.sin(at) * 0.86];
  });

/** Gastronorm pans hung in cut-outs: a rim on the top and the pan's tapered body under it. */
export const drawPanCutOuts: DrawFeature = (pen, { from, to, count }, { top, underTop }) => {
  for (const { from: left, to: right } of shared(from, to, count)) {
    pen.polygon(
      [
        [left + 5, underTop],
        [left + 13, underTop - 110],
        [right - 13, underTop - 110],
        [right - 5, underTop],
      ],
      content,
    );
    pen.line(
      [
        [left + 8, underTop - 30],
        [right - 8, underTop - 30],
      ],
      edge,
    );
    pen.box(left + 1, top - 2, right - 1, top + 8, body);
  }
};
