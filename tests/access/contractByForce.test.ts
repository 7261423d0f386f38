import { describe, expect, it } from 'vitest';
import { longestBoxInBox } from '../../src/access/boxInBox.ts';
import { checkWayIn } from '../../src/access/checkWayIn.ts';
import { turnBackedIn } from '../../src/access/turnBackedIn.ts';
import { turnPlan } from '../../src/access/turnPlan.ts';
import type { AccessPiece, Obstacle } from '../../src/access/wayInSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import {
  carExcess,
  type ForcedPiece,
  roundTheTurn,
  throughOpening,
  throughTurn,
} from '../oracles/accessByForce.ts';
import { type SeededRandom, seededRandom } from '../oracles/seededRandom.ts';

const SEED = 60_901;
const STEPS = 3600;

const mm = (random: SeededRandom, low: number, high: number): number =>
  Math.round(low + random.next() * (high - low));

type Plain = Extract<Obstacle, { kind: 'doorway' | 'passage' | 'turn' | 'lift' | 'stair' }>;

/** An obstacle of the published contract, with none of the optional fields but the angle. */
const plainObstacle = (random: SeededRandom): Plain => {
  const kind = random.pick(['doorway', 'passage', 'turn', 'lift', 'stair'] as const);
  switch (kind) {
    case 'doorway':
    case 'passage':
      return { kind, widthMm: mm(random, 500, 1500), heightMm: mm(random, 600, 2400) };
    case 'turn':
      return {
        kind,
        fromMm: mm(random, 500, 1800),
        toMm: mm(random, 500, 1800),
        heightMm: mm(random, 500, 2600),
        ...(random.chance(0.4) ? {} : { angleDeg: mm(random, 30, 150) }),
      };
    case 'lift':
      return {
        kind,
        doorWidthMm: mm(random, 600, 1300),
        doorHeightMm: mm(random, 1500, 2200),
        carWidthMm: mm(random, 800, 2000),
        carDepthMm: mm(random, 900, 2200),
        carHeightMm: mm(random, 1800, 2400),
        ratedKg: 1000,
      };
    case 'stair':
      return {
        kind,
        widthMm: mm(random, 600, 1500),
        landingMm: mm(random, 600, 1800),
        headroomMm: mm(random, 1200, 2600),
      };
  }
};

const randomPiece = (random: SeededRandom): AccessPiece => ({
  id: 'p',
  lengthMm: mm(random, 200, 3500),
  widthMm: mm(random, 50, 1200),
  heightMm: mm(random, 50, 1500),
  massKg: 10,
  keepUpright: random.chance(0.4),
});

const byForce = (obstacle: Plain, piece: ForcedPiece): boolean => {
  const turned = (from: number, to: number, up: number, degrees: number) =>
    throughTurn(piece, { from, to, up, turnRad: (degrees * Math.PI) / 180 }, STEPS);
  switch (obstacle.kind) {
    case 'doorway':
    case 'passage':
      return throughOpening(piece, obstacle.widthMm, obstacle.heightMm);
    case 'turn':
      return turned(obstacle.fromMm, obstacle.toMm, obstacle.heightMm, obstacle.angleDeg ?? 90);
    case 'stair':
      return (
        throughOpening(piece, obstacle.widthMm, obstacle.headroomMm) &&
        turned(obstacle.widthMm, obstacle.landingMm, obstacle.headroomMm, 90)
      );
    case 'lift':
      return (
        throughOpening(piece, obstacle.doorWidthMm, obstacle.doorHeightMm) &&
        carExcess(
          piece,
          [obstacle.carWidthMm, obstacle.carDepthMm, obstacle.carHeightMm],
          seededRandom(SEED).next,
        ) <= 0
      );
  }
};

/** The piece with another length and every side a little larger. */
const forced = (piece: AccessPiece, length: number, more: number): ForcedPiece => ({
  length: length + more,
  width: piece.widthMm + more,
  height: piece.heightMm + more,
  keepUpright: piece.keepUpright === true,
});

/** Whether a rotation is shown that holds a box of this length in the car: three unit rows, square to each other. */
const hasRotation = (obstacle: Plain, { widthMm, heightMm }: AccessPiece, longestMm: number): boolean => {
  if (obstacle.kind !== 'lift') return false;
  const car = [obstacle.carWidthMm, obstacle.carDepthMm, obstacle.carHeightMm] as const;
  const { rows } = longestBoxInBox(car, widthMm, heightMm);
  if (rows === null) return false;
  const sides = [longestMm - 0.05, widthMm, heightMm];
  return rows.every(
    (row, i) =>
      row.reduce((sum, part, side) => sum + Math.abs(part) * sides[side]!, 0) <= car[i]! + 1e-6 &&
      rows.every(
        (other, j) =>
          Math.abs(row.reduce((sum, part, side) => sum + part * other[side]!, 0) - (i === j ? 1 : 0)) < 1e-9,
      ),
  );
};

describe('a way in of one obstacle, from the contract alone', () => {
  it('lets by the pieces, and the lengths, that trying every orientation in small steps lets by', () => {
    const random = seededRandom(SEED);
    const count = campaignSize({ sample: 60, full: 6000 });
    const failures: string[] = [];
    for (let index = 0; index < count; index += 1) {
      const obstacle = plainObstacle(random);
      const piece = randomPiece(random);
      const found = checkWayIn({ obstacles: [obstacle], pieces: [piece] }).pieces[0]!;
      const { longestMm } = found;
      const letsBy = (length: number, more = 0) => byForce(obstacle, forced(piece, length, more));
      const wrong = (what: string) =>
        failures.push(`seed ${SEED} case ${index} ${JSON.stringify([obstacle, piece, found])}: ${what}`);
      if (found.passes && found.marginMm > 3 && !letsBy(piece.lengthMm, -0.4)) wrong('stopped by force');
      if (!found.passes && found.marginMm < -1 && letsBy(piece.lengthMm, 0.02)) wrong('let by by force');
      if (longestMm > 5 && longestMm < 100_000) {
        // A climb of rotations misses a best one now and then; then the product must show one that holds.
        if (!letsBy(longestMm - 3, -0.05) && !hasRotation(obstacle, piece, longestMm))
          wrong('the longest is stopped by force');
        if (letsBy(longestMm * 1.002 + 3)) wrong('a longer one is let by by force');
      }
      if (longestMm === 0 && [20, 100, 600, 2000].some((length) => letsBy(length)))
        wrong('some length passes');
      if (longestMm === 100_000 && !letsBy(20_000, -0.4)) wrong('a length is stopped by force');
      if (Math.abs(piece.lengthMm - longestMm) > 0.01 && found.passes !== piece.lengthMm <= longestMm)
        wrong('the longest and the verdict disagree');
    }
    expect(failures).toEqual([]);
  }, 1_800_000);

  it('gets round a turn by nothing but a swing, a slide and, past a right angle, backing into the corner', () => {
    const random = seededRandom(SEED + 1);
    const count = campaignSize({ sample: 40, full: 5000 });
    const failures: string[] = [];
    for (let index = 0; index < count; index += 1) {
      const degrees = index % 2 === 0 ? mm(random, 20, 110) : mm(random, 91, 165);
      const turn = {
        from: mm(random, 700, 1800),
        to: mm(random, 700, 1800),
        turnRad: (degrees * Math.PI) / 180,
      };
      const short = Math.round((0.1 + 0.89 * random.next()) * Math.min(turn.from, turn.to));
      const plan = { fromMm: turn.from, toMm: turn.to, turnRad: turn.turnRad, heightMm: 2000 };
      const direct = turnPlan(plan).limit(short).longestMm;
      const wanted = [
        { long: direct, anyWay: false },
        { long: Math.max(direct, turnBackedIn(plan, short)), anyWay: true },
      ];
      for (const { long, anyWay } of wanted) {
        // Where the width is the longer side, the two are asked for in the other order.
        if (long < short) continue;
        const letsBy = (length: number) =>
          roundTheTurn(Math.max(length, short), Math.min(length, short), turn, { anyWay, steps: STEPS });
        const what = `seed ${SEED + 1} case ${index} ${degrees} ${JSON.stringify(turn)} ${short} -> ${long} ${anyWay}`;
        if (!letsBy(long * 0.998 - 2)) failures.push(`${what}: a shorter one is stopped`);
        if (letsBy(long * 1.002 + 3)) failures.push(`${what}: a longer one passes`);
      }
    }
    expect(failures).toEqual([]);
  }, 1_800_000);
});

const stiff = { id: 'p', lengthMm: 1200, widthMm: 600, heightMm: 900, massKg: 20, keepUpright: true };
const answer = (obstacles: readonly Obstacle[], piece: AccessPiece) =>
  checkWayIn({ obstacles, pieces: [piece] }).pieces[0]!;

describe('going from the door of a lift into its car', () => {
  const lift: Obstacle = {
    kind: 'lift',
    doorWidthMm: 900,
    doorHeightMm: 2000,
    carWidthMm: 1600,
    carDepthMm: 1400,
    carHeightMm: 2200,
    ratedKg: 1000,
  };

  it('is sure where the piece goes straight on to the back', () => {
    expect(answer([lift], stiff)).toMatchObject({ passes: true, sure: true });
    expect(answer([lift], { ...stiff, lengthMm: 1400 })).toMatchObject({ passes: true, sure: true });
    expect(answer([lift], { ...stiff, lengthMm: 1400 }).cautions).not.toContain('car-position-only');
  });

  it('is not proved where the piece must be turned in the car, and says so', () => {
    // 1500 fits across a car 1600 wide, but not straight in from a door in front of 1400.
    const found = answer([lift], { ...stiff, lengthMm: 1500 });
    expect(found).toMatchObject({ passes: true, sure: false });
    expect(found.obstacles[0]).toMatchObject({ doubt: 'movement' });
    expect(found.cautions).toContain('car-position-only');
  });

  it('is not in doubt where the piece is too large or too heavy anyway', () => {
    expect(answer([lift], { ...stiff, lengthMm: 2500 })).toMatchObject({ passes: false, sure: true });
    expect(answer([lift], { ...stiff, lengthMm: 1500, massKg: 2000 })).toMatchObject({
      passes: false,
      sure: true,
    });
  });

  it('is in doubt by its sizes where a car smaller by its uncertainty no longer lets the piece straight in', () => {
    const found = answer([{ ...lift, uncertaintyMm: 20 }], { ...stiff, lengthMm: 1390 });
    expect(found).toMatchObject({ passes: true, sure: false });
    expect(found.obstacles[0]).toMatchObject({ doubt: 'sizes' });
  });
});

describe('a turn past a right angle', () => {
  const sharp: Obstacle = { kind: 'turn', fromMm: 1200, toMm: 1200, heightMm: 2400, angleDeg: 140 };

  it('leaves to the site what could only be backed into its outer corner', () => {
    const narrow = { ...stiff, widthMm: 300 };
    const { longestMm } = answer([sharp], narrow);
    const found = answer([sharp], { ...narrow, lengthMm: longestMm + 50 });
    expect(found).toMatchObject({ passes: false, sure: false });
    expect(found.obstacles[0]).toMatchObject({ doubt: 'outer-corner' });
    expect(found.cautions).toContain('outer-corner-not-counted');
    const plan = { fromMm: 1200, toMm: 1200, turnRad: (140 * Math.PI) / 180 };
    expect(answer([sharp], { ...narrow, lengthMm: turnBackedIn(plan, 300) + 1 })).toMatchObject({
      passes: false,
      sure: true,
    });
  });
});
