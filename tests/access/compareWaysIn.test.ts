import { describe, expect, it } from 'vitest';
import { compareWaysIn } from '../../src/access/compareWaysIn.ts';
import type { AccessPiece } from '../../src/access/wayInSchema.ts';

const pieces: readonly AccessPiece[] = [
  { id: 'short', lengthMm: 1200, widthMm: 600, heightMm: 900, massKg: 30, keepUpright: true },
  { id: 'long', lengthMm: 2400, widthMm: 600, heightMm: 900, massKg: 60, keepUpright: true },
];

describe('several ways in', () => {
  it('come with the one first that stops fewest pieces, then the one that leaves fewest open', () => {
    const compared = compareWaysIn(
      [
        { name: 'cellar', obstacles: [{ kind: 'turn', fromMm: 1200, toMm: 1200, heightMm: 2300 }] },
        {
          name: 'yard, not measured',
          obstacles: [{ kind: 'doorway', widthMm: 620, heightMm: 2000, uncertaintyMm: 40 }],
        },
        { name: 'front', obstacles: [{ kind: 'doorway', widthMm: 700, heightMm: 2000 }] },
      ],
      pieces,
    );
    expect(compared.map((way) => way.name)).toEqual(['front', 'yard, not measured', 'cellar']);
    expect(compared.map((way) => way.stopped)).toEqual([[], [], ['long']]);
    expect(compared.map((way) => way.unsure)).toEqual([[], ['short', 'long'], []]);
    expect(compared.map((way) => way.tightestMm)).toEqual([100, 20, -205.887]);
  });

  it('have no tightest margin where nothing is to be brought in', () => {
    expect(compareWaysIn([{ name: 'front', obstacles: [] }], [])[0]).toMatchObject({
      tightestMm: null,
      stopped: [],
    });
  });
});
