import type { PlanPen, XY } from './planPen.ts';

/**
 * Where the venue stands in its invented town: quay, street, neighbours; the venue in black. Millimetres of paper; it
 * has no scale, and says none.
 */
export const drawKeyPlan = (
  pen: PlanPen,
  place: { readonly left: number; readonly right: number; readonly top: number },
): void => {
  const { left, right, top } = place;
  const low = top - 82;
  const at = (x: number, y: number): XY => [left + 4 + x, low + y];
  const width = right - left - 8;
  const block = (points: readonly XY[], grey: number): void => {
    pen.area(
      points.map(([x, y]) => at(x, y)),
      { grey },
      { pen: 0.18 },
    );
  };
  pen.layer('Sheet', () => {
    pen.letter('WHERE', [left + 4, top - 8], { cap: 2.2, bold: true });
    // The quay wall, and the water beyond it.
    const quay: readonly XY[] = [at(0, 14), at(46, 11), at(96, 13), at(width, 8)];
    pen.polyline(quay, { pen: 0.5 });
    for (const drop of [2.2, 4.8, 7.8])
      pen.polyline(
        quay.map(([x, y]) => [x, y - drop]),
        { pen: 0.1, grey: 0.4 },
      );
    // North of the street: neighbours; the venue with its yard.
    block(
      [
        [0, 30],
        [24, 29],
        [24, 52],
        [0, 54],
      ],
      0.88,
    );
    block(
      [
        [26, 29],
        [43, 28.4],
        [43, 47],
        [26, 48],
      ],
      0.88,
    );
    block(
      [
        [46, 28.4],
        [70, 28],
        [70, 42.4],
        [46, 42.8],
      ],
      0,
    );
    block(
      [
        [76, 28],
        [92, 28],
        [92, 56],
        [76, 56],
      ],
      0.88,
    );
    block(
      [
        [104, 28],
        [130, 26.5],
        [130, 44],
        [104, 46],
      ],
      0.88,
    );
    block(
      [
        [132, 26.4],
        [width, 25],
        [width, 48],
        [132, 49],
      ],
      0.88,
    );
    block(
      [
        [46, 50],
        [70, 49.6],
        [70, 60],
        [46, 60.4],
      ],
      0.88,
    );
    block(
      [
        [0, 60],
        [40, 56],
        [40, 66],
        [0, 68],
      ],
      0.88,
    );
    block(
      [
        [104, 52],
        [width, 54],
        [width, 66],
        [104, 66],
      ],
      0.88,
    );
    for (const x of [12, 34, 58, 84, 116, 142]) {
      pen.circle(at(x, 18.2 - x * 0.015), 1.6, { pen: 0.13, grey: 0.3 });
      pen.dot(at(x, 18.2 - x * 0.015), 0.25, 0.3);
    }
    pen.letter('SAILMAKER ROW', at(58, 22.4), { cap: 1.7, align: 'centre', angleDeg: -0.8 });
    pen.letter('ROPE LANE', at(98.8, 40), { cap: 1.5, align: 'centre', angleDeg: 90 });
    pen.letter('OLD QUAY', at(120, -2.6), { cap: 1.7, align: 'centre', angleDeg: -2 });
    pen.letter('YARD', at(58, 45.4), { cap: 1.4, align: 'centre' });
  });
};
