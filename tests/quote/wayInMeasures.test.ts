import { describe, expect, it } from 'vitest';
import { checkWayIn } from '../../src/access/checkWayIn.ts';
import type { MeasuredWayIn } from '../../src/access/wayInOfProject.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import { wayInMeasures } from '../../src/quote/wayInMeasures.ts';
import { wayInVerdicts } from '../../src/quote/wayInVerdicts.ts';

const doorway = (name: string, widthMm: number, uncertaintyMm: number, confirmOnSite = false) => ({
  drawn: {
    id: `obstacle-${name.replace(' ', '')}`,
    kind: 'doorway',
    name,
    sizes: {},
    figures: {},
    typedPlusMinusMm: uncertaintyMm,
    confirmOnSite,
  } as unknown as MeasuredWayIn['measured'][number]['drawn'],
  name,
  sizes: {
    widthMm: { lengthMm: widthMm, plusMinusMm: uncertaintyMm },
    heightMm: { lengthMm: 2_100, plusMinusMm: uncertaintyMm },
  },
  obstacle: { kind: 'doorway', name, widthMm, heightMm: 2_100, uncertaintyMm } as NonNullable<
    MeasuredWayIn['measured'][number]['obstacle']
  >,
  fault: null,
});

/** A box 760 wide, upright, through doors of given widths. */
const accessBy = (measured: MeasuredWayIn['measured']): ProjectAccess => {
  const obstacles = measured.flatMap(({ obstacle }) => (obstacle ? [obstacle] : []));
  const piece = { id: '1.01', lengthMm: 1_860, widthMm: 760, heightMm: 980, massKg: 60, keepUpright: true };
  expect(checkWayIn({ obstacles, pieces: [piece] }).pieces.length).toBe(1);
  return {
    wayIn: {
      id: 'way-1' as MeasuredWayIn['id'],
      name: 'Yard',
      measured,
      obstacles,
      obstacleIds: measured.map(({ drawn }) => drawn.id),
    },
    pieces: [],
    groups: wayInVerdicts(obstacles, [
      {
        mark: '1.01',
        name: 'Module 1800',
        kind: 'stock',
        piece,
        support: 'standing',
        sizeFrom: 'range',
        massFrom: 'range',
        framesOff: null,
      },
    ]),
    loose: [],
    notJudged: [],
    limits: [],
  };
};

describe('the way in on the site-measure list', () => {
  it('names the door that a verdict hangs on, and only that: 770 +/- 20 mm against 760, not 900 +/- 20', () => {
    const list = wayInMeasures(accessBy([doorway('Wide door', 900, 20), doorway('Tight door', 770, 20)]));
    const width = (name: string) => list.find(({ what }) => what.startsWith(name) && /width/.test(what))!;
    expect(width('Tight door')).toMatchObject({ decides: true, drawn: 770, plusMinus: 20 });
    expect(width('Tight door').why).toContain('1.01');
    expect(width('Wide door').decides).toBe(false);
  });

  it('lets a usual size that nobody measured decide, and a measured one not', () => {
    const list = wayInMeasures(
      accessBy([doorway('Guessed door', 900, 0, true), doorway('Known door', 900, 0)]),
    );
    expect(list.filter(({ decides }) => decides).every(({ what }) => what.startsWith('Guessed'))).toBe(true);
    expect(list.filter(({ decides }) => decides).length).toBe(2);
  });
});
