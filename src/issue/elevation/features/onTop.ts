import { body, content, detail, edge, hidden, outline, panel, solid } from '../pieceStyles.ts';
import { type DrawFeature, shared } from './drawFeature.ts';

/** What stands on a working top. Shapes and sizes as such things are commonly made (common practice, no source). */

const neck = (centre: number, base: number, radius: number, tube: number, side: 1 | -1) => {
  const turn = base;
  const middle = centre + side * radius;
  const around = (distance: number, steps: number) =>
    Array.from({ length: steps + 1 }, (_, index) => {
      const angle = Math.PI * (1 - index / steps);
      return [middle + side * distance * Math.cos(angle), turn + distance * Math.sin(angle)] as const;
    });
  return { outer: around(radius + tube / 2, 12), inner: around(radius - tube / 2, 12) };
};

/** A swan-neck mixer, its spout swung aside so that its shape shows. */
export const drawTap: DrawFeature = (pen, { from, to }, { top }) => {
  const centre = (from + to) / 2;
  const turn = top + 190;
  const { outer, inner } = neck(centre, turn, 52, 20, 1);
  const outlet = centre + 104;
  pen.polygon(
    [
      [centre - 10, top + 10],
      ...outer,
      [outlet + 10, turn - 46],
      [outlet - 10, turn - 46],
      ...inner.toReversed(),
      [centre + 10, top + 10],
    ],
    body,
  );
  pen.box(centre - 22, top, centre + 22, top + 14, body);
  pen.polygon(
    [
      [centre - 12, top + 52],
      [centre - 12, top + 40],
      [centre - 66, top + 62],
      [centre - 62, top + 74],
    ],
    detail,
  );
};

/** A dispense tower: a bridge on its columns, a tap with handle and spout for each line. */
export const drawBeerTaps: DrawFeature = (pen, { from, to, count }, { top }) => {
  const width = to - from;
  const columns = width < 240 ? [from + width / 2] : [from + width * 0.2, to - width * 0.2];
  const bridge = top + 205;
  for (const column of columns) {
    pen.box(column - 26, top, column + 26, bridge + 10, body);
    pen.box(column - 40, top, column + 40, top + 14, body);
    pen.line(
      [
        [column - 14, top + 14],
        [column - 14, bridge],
      ],
      edge,
    );
  }
  pen.rounded([from, bridge, to, bridge + 70], { bottomRadius: 35, topRadius: 35 }, body);
  pen.line(
    [
      [from + 24, bridge + 18],
      [to - 24, bridge + 18],
    ],
    edge,
  );
  const reach = Math.min(1, width / count / 62);
  for (const { middle } of shared(from, to, count)) {
    pen.polygon(
      [
        [middle - 7 * reach, bridge + 20],
        [middle + 7 * reach, bridge + 20],
        [middle + 6 * reach, bridge - 74],
        [middle - 6 * reach, bridge - 74],
      ],
      detail,
    );
    pen.circle([middle, bridge + 36], 17 * reach, body);
    pen.polygon(
      [
        [middle - 6 * reach, bridge + 52],
        [middle + 6 * reach, bridge + 52],
        [middle + 14 * reach, bridge + 142],
        [middle + 9 * reach, bridge + 156],
        [middle - 9 * reach, bridge + 156],
        [middle - 14 * reach, bridge + 142],
      ],
      panel,
    );
  }
};

/** A tray let into the top, with its grating and the drain under it. */
export const drawDripTray: DrawFeature = (pen, { from, to }, { top, underTop }) => {
  pen.polygon(
    [
      [from + 10, underTop],
      [from + 24, underTop - 34],
      [to - 24, underTop - 34],
      [to - 10, underTop],
    ],
    detail,
  );
  const drain = from + (to - from) * 0.5;
  pen.box(drain - 16, underTop - 92, drain + 16, underTop - 34, detail);
  pen.box(from, underTop + 12, to, top + 6, { weight: 'medium', fill: 'content' });
  const bars = Math.max(2, Math.round((to - from) / 26));
  for (const { from: bar } of shared(from, to, bars).slice(1))
    pen.line(
      [
        [bar, underTop + 12],
        [bar, top + 6],
      ],
      edge,
    );
};

/** A rinser: spray arms in a shallow well, a glass upside down over them, its feed under the top. */
export const drawGlassRinser: DrawFeature = (pen, { from, to }, { top, underTop }) => {
  const centre = (from + to) / 2;
  pen.polygon(
    [
      [from + 8, underTop],
      [from + 26, underTop - 44],
      [to - 26, underTop - 44],
      [to - 8, underTop],
    ],
    detail,
  );
  pen.box(centre - 9, underTop - 190, centre + 9, underTop - 44, detail);
  pen.box(centre - 16, underTop - 150, centre + 16, underTop - 122, body);
  pen.box(from, top - 4, to, top + 7, body);
  for (const reach of [-34, 0, 34])
    pen.line(
      [
        [centre, top + 7],
        [centre + reach, top + 30],
      ],
      outline,
    );
  pen.polygon(
    [
      [centre - 40, top + 42],
      [centre - 31, top + 178],
      [centre + 31, top + 178],
      [centre + 40, top + 42],
    ],
    hidden,
  );
};

/** A till: drawer box, post and the screen's back or face. */
export const drawTill: DrawFeature = (pen, { from, to }, { top }) => {
  const centre = (from + to) / 2;
  const width = to - from;
  pen.rounded([from, top, to, top + 88], { topRadius: 10 }, panel);
  pen.line(
    [
      [from + 14, top + 62],
      [to - 14, top + 62],
    ],
    edge,
  );
  pen.circle([centre, top + 34], 8, detail);
  pen.box(centre - 22, top + 88, centre + 22, top + 140, body);
  pen.rounded(
    [centre - width * 0.42, top + 130, centre + width * 0.42, top + 320],
    { bottomRadius: 12, topRadius: 12 },
    panel,
  );
  pen.box(centre - width * 0.36, top + 148, centre + width * 0.36, top + 304, content);
};

/** A ring in the top, the chute that hangs from it and the bin below, both behind whatever closes the front. */
export const drawWasteChute: DrawFeature = (pen, { from, to }, { top, underTop, railBottom }) => {
  const inset = (to - from) * 0.12;
  pen.polygon(
    [
      [from, underTop],
      [from + inset, underTop - 170],
      [to - inset, underTop - 170],
      [to, underTop],
    ],
    hidden,
  );
  pen.polygon(
    [
      [from - 22, underTop - 200],
      [from - 2, railBottom + 20],
      [to + 2, railBottom + 20],
      [to + 22, underTop - 200],
    ],
    hidden,
  );
  pen.rounded([from - 12, top, to + 12, top + 12], { topRadius: 8 }, body);
  pen.box(from + 8, top + 3, to - 8, top + 8, solid);
};
