import { describe, expect, it } from 'vitest';
import { checkWayIn, type PieceAnswer } from '../../src/access/checkWayIn.ts';
import type { AccessPiece, Obstacle } from '../../src/access/wayInSchema.ts';

const module: AccessPiece = { id: 'm', lengthMm: 2400, widthMm: 600, heightMm: 900, massKg: 20 };
const upright: AccessPiece = { ...module, keepUpright: true };

const answer = (obstacles: readonly Obstacle[], piece: AccessPiece = module): PieceAnswer =>
  checkWayIn({ obstacles, pieces: [piece] }).pieces[0]!;

const doorway = (widthMm: number, heightMm: number): Obstacle => ({ kind: 'doorway', widthMm, heightMm });
const cellarTurn: Obstacle = { kind: 'turn', fromMm: 1200, toMm: 1200, heightMm: 2300 };
// Car and door of a 1000 kg lift (ISO 8100-30 in secondary texts): 1600 x 1400, door 900 x 2100, height 2200.
const lift: Obstacle = {
  kind: 'lift',
  doorWidthMm: 900,
  doorHeightMm: 2100,
  carWidthMm: 1600,
  carDepthMm: 1400,
  carHeightMm: 2200,
  ratedKg: 1000,
};

describe('the answer for a piece', () => {
  it('has every field of the contract', () => {
    expect(answer([doorway(800, 2000)])).toMatchObject({
      id: 'm',
      passes: true,
      sure: true,
      limitedBy: 'doorway',
      limitedByIndex: 0,
      marginMm: 200,
      orientation: 'upright',
      crew: 1,
    });
  });

  it('passes where nothing stands in the way, and names no obstacle', () => {
    const free = answer([]);
    expect(free.passes).toBe(true);
    expect(free.limitedBy).toBeUndefined();
    expect(free.lengthLimited).toBe(false);
  });

  it('names the tightest of several obstacles by kind, position and name', () => {
    const tight = answer(
      [doorway(900, 2000), { ...cellarTurn, name: 'cellar' }, doorway(800, 2000)],
      upright,
    );
    expect(tight).toMatchObject({
      passes: false,
      limitedBy: 'turn',
      limitedByIndex: 1,
      limitedByName: 'cellar',
    });
    expect(tight.marginMm).toBeCloseTo(2194.1125 - 2400, 2);
    expect(tight.longestMm).toBeCloseTo(2194.1125, 2);
  });

  it('judges every obstacle of the way by itself', () => {
    const { obstacles } = answer([doorway(800, 2000), cellarTurn], upright);
    expect(obstacles.map((cell) => cell.passes)).toEqual([true, false]);
    expect(obstacles.map((cell) => cell.manner)).toEqual(['straight', 'swung']);
  });

  it('is the same for pieces judged together and apart', () => {
    const obstacles = [cellarTurn, lift];
    const pieces = [module, { ...module, id: 'n', lengthMm: 1800 }, { ...upright, id: 'o', widthMm: 700 }];
    const together = checkWayIn({ obstacles, pieces }).pieces;
    expect(together).toEqual(pieces.map((piece) => answer(obstacles, piece)));
  });
});

describe('the handling rule', () => {
  it('turns a piece on edge for a door that is too narrow for it upright', () => {
    // 900 wide and 600 high: 600 must go across.
    const wide = { ...module, widthMm: 900, heightMm: 600 };
    expect(answer([doorway(800, 2000)], wide)).toMatchObject({
      passes: true,
      orientation: 'on-edge',
      marginMm: 200,
    });
    expect(answer([doorway(800, 2000)], { ...wide, keepUpright: true })).toMatchObject({
      passes: false,
      marginMm: -100,
    });
    expect(answer([doorway(800, 2000)], { ...wide, mayGoOnEdge: false, mayGoOnEnd: false }).passes).toBe(
      false,
    );
  });

  it('still lets an upright piece turn about the vertical', () => {
    // Too wide across, but its length goes across instead.
    const stub = { ...upright, lengthMm: 700, widthMm: 1000 };
    expect(answer([doorway(800, 2000)], stub)).toMatchObject({
      passes: true,
      orientation: 'upright',
      marginMm: 100,
    });
  });

  it('stands a piece on end to get it round a turn that it could not be swung round', () => {
    const short = { ...module, lengthMm: 2250 };
    expect(answer([cellarTurn], short)).toMatchObject({ passes: true, orientation: 'on-end', marginMm: 50 });
    expect(answer([cellarTurn], { ...short, mayGoOnEnd: false })).toMatchObject({ passes: false });
  });

  it('tilts a cross-section in a doorway that it fits no other way', () => {
    // 1700 x 200 in 1000 x 1500: 200 less than the diagonal's reach; Carver's criterion holds, both squares fail.
    const panel = { ...module, widthMm: 1700, heightMm: 200 };
    expect(answer([doorway(1000, 1500)], { ...panel, lengthMm: 3000 }).obstacles[0]).toMatchObject({
      passes: false,
    });
    const slim = { ...panel, heightMm: 40, lengthMm: 3000 };
    expect(answer([doorway(1000, 1500)], slim)).toMatchObject({ passes: true, orientation: 'tilted' });
    expect(answer([doorway(1000, 1500)], { ...slim, keepUpright: true }).passes).toBe(false);
  });
});

describe('a turn with the third dimension overhead', () => {
  it('stops a piece that is too high for it', () => {
    expect(answer([{ ...cellarTurn, heightMm: 850 }], { ...upright, lengthMm: 1000 })).toMatchObject({
      passes: false,
      marginMm: -50,
    });
  });

  it('lets a pitched piece by as the published puzzle has it', () => {
    // A box 4.3 x 0.2 x 0.07 m in a hall 2.5 m high needs 1.3651 m of width (a question on a mathematics site, unsourced).
    const pole = { id: 'pole', lengthMm: 4300, widthMm: 70, heightMm: 200, massKg: 5, mayPitchInTurns: true };
    const hall = (mm: number): Obstacle => ({ kind: 'turn', fromMm: mm, toMm: mm, heightMm: 2500 });
    expect(answer([hall(1366)], pole).passes).toBe(true);
    expect(answer([hall(1364)], pole).passes).toBe(false);
    expect(answer([hall(1366)], { ...pole, mayPitchInTurns: false }).passes).toBe(false);
  });

  it('is shortened by a leg that soon ends', () => {
    const ended: Obstacle = { ...cellarTurn, toLegMm: 2000 };
    expect(answer([ended], upright).longestMm).toBeCloseTo(Math.sqrt(2000 ** 2 - 600 ** 2), 2);
  });
});

describe('a doorway with a leaf and a threshold', () => {
  it('loses the one from its width and the other from its height', () => {
    const door: Obstacle = { kind: 'doorway', widthMm: 650, heightMm: 920, leafMm: 40, thresholdMm: 15 };
    expect(answer([door], upright)).toMatchObject({ passes: true, marginMm: 5 });
    expect(answer([{ ...door, leafMm: 60 }], upright)).toMatchObject({ passes: false, marginMm: -10 });
  });
});

describe('a lift', () => {
  it('takes 1637.9 of a 500-deep upright piece on the diagonal of a 1400 x 1600 car', () => {
    const slim = { ...upright, widthMm: 500, lengthMm: 1630 };
    const found = answer([lift], slim);
    expect(found).toMatchObject({ passes: true, limitedBy: 'lift' });
    expect(found.longestMm).toBeCloseTo(1637.9, 1);
    expect(found.obstacles[0]).toMatchObject({ part: 'car', manner: 'diagonal' });
    expect(found.cautions).toContain('car-position-only');
  });

  it('takes 2005.7 of it in a 2000 x 1400 car', () => {
    const large: Obstacle = { ...lift, carWidthMm: 2000 };
    expect(answer([large], { ...upright, widthMm: 500 }).longestMm).toBeCloseTo(2005.7, 1);
  });

  it('stops what its door stops', () => {
    expect(answer([{ ...lift, doorWidthMm: 590 }], { ...upright, lengthMm: 1000 })).toMatchObject({
      passes: false,
      marginMm: -10,
    });
  });

  it('tilts a rail that is longer than the car is high', () => {
    // Space diagonal of 1600 x 1400 x 2200: 3059 (Pythagoras), an upper bound.
    const rail = { id: 'r', lengthMm: 2900, widthMm: 40, heightMm: 40, massKg: 4 };
    const found = answer([lift], rail);
    expect(found).toMatchObject({ passes: true, orientation: 'tilted' });
    expect(found.longestMm).toBeLessThan(3059);
    expect(answer([lift], { ...rail, keepUpright: true }).passes).toBe(false);
  });

  it('stops a piece that is heavier than its rated load, and says by how much', () => {
    const heavy = answer([doorway(800, 2000), lift], { ...upright, lengthMm: 1200, massKg: 1100 });
    expect(heavy).toMatchObject({ passes: false, limitedBy: 'lift', limitedByIndex: 1 });
    expect(heavy.obstacles[1]).toMatchObject({ passes: false, spareKg: -100 });
  });
});

describe('a stair', () => {
  const stair: Obstacle = { kind: 'stair', widthMm: 1000, landingMm: 1200, headroomMm: 2000 };

  it('turns a piece at a right angle on its landing, from the width of the flight to the length of the landing', () => {
    const onTurn = answer([{ kind: 'turn', fromMm: 1000, toMm: 1200, heightMm: 2000 }], upright);
    expect(answer([stair], upright).longestMm).toBe(onTurn.longestMm);
  });

  it('does not turn a piece where the flights go straight on', () => {
    expect(answer([{ ...stair, landingTurnDeg: 0 }], upright)).toMatchObject({ passes: true, marginMm: 400 });
  });

  it('must hold the piece between two flights that run back on each other', () => {
    const back: Obstacle = { ...stair, landingTurnDeg: 180, wellMm: 100 };
    // The landing is 2 x 1000 + 100 wide and the piece turns on it: l^2 + w^2 <= 2100^2.
    const slim = { ...upright, widthMm: 300 };
    expect(answer([back], slim).longestMm).toBeCloseTo(Math.sqrt(2100 ** 2 - 300 ** 2), 2);
  });

  it('takes headroom from a piece that is carried level up a pitch', () => {
    // h + l tan 35: 900 + 1000 x 0.7002 = 1600.2; 1800 - 1600.2 = 199.8.
    const pitched: Obstacle = { ...stair, headroomMm: 1800, pitchDeg: 35, landingTurnDeg: 0 };
    const found = answer([pitched], { ...upright, lengthMm: 1000 });
    expect(found.marginMm).toBeCloseTo(1800 - 900 - 1000 * Math.tan((35 * Math.PI) / 180), 2);
    // Held parallel to the pitch it has 1800 cos 35 = 1474.5 for its 900, and 400 beside it.
    expect(answer([pitched], { ...module, lengthMm: 2000 })).toMatchObject({ passes: true, marginMm: 400 });
  });

  it('leaves a piece that is carried parallel to the pitch the clear height square to it', () => {
    // 1050 cos 35 = 860.1 for a height of 900.
    const low: Obstacle = { ...stair, headroomMm: 1050, pitchDeg: 35, landingTurnDeg: 0 };
    const flat = { ...module, mayGoOnEdge: false, mayGoOnEnd: false };
    expect(answer([low], flat).marginMm).toBeCloseTo(860.11 - 900, 2);
  });

  it('says that the lower end carries most', () => {
    expect(answer([stair], upright).cautions).toContain('lower-end-carries-most');
  });
});

describe('the other obstacles', () => {
  it('let a piece under a height limit lying down', () => {
    const beam: Obstacle = { kind: 'height-limit', heightMm: 700 };
    expect(answer([beam])).toMatchObject({ passes: true, orientation: 'on-edge', marginMm: 100 });
    expect(answer([beam], upright)).toMatchObject({ passes: false, marginMm: -200 });
  });

  it('need floor to set a piece down', () => {
    const yard: Obstacle = { kind: 'set-down', widthMm: 2000, depthMm: 900 };
    expect(answer([yard], upright)).toMatchObject({ passes: false, limitedBy: 'set-down' });
    expect(answer([{ ...yard, widthMm: 2600 }], upright).passes).toBe(true);
  });

  it('lower a ceiling over a ramp', () => {
    const ramp: Obstacle = { kind: 'ramp', widthMm: 1000, heightMm: 1100, slopeDeg: 5 };
    expect(answer([ramp], upright).marginMm).toBeCloseTo(
      1100 - 900 - 2400 * Math.tan((5 * Math.PI) / 180),
      2,
    );
  });

  it('let a piece into a doorway off the side of a passage less easily through a thick wall', () => {
    const side = (wallMm: number): Obstacle => ({
      kind: 'side-doorway',
      passageMm: 1200,
      widthMm: 900,
      heightMm: 2000,
      wallMm,
    });
    const thin = answer([side(100)], upright).longestMm;
    const thick = answer([side(600)], upright).longestMm;
    expect(thin).toBeGreaterThan(thick);
    // A wall without end is a turn into a passage as wide as the doorway.
    const turn = answer([{ kind: 'turn', fromMm: 1200, toMm: 900, heightMm: 2000 }], upright).longestMm;
    expect(answer([side(50_000)], upright).longestMm).toBeCloseTo(turn, 2);
  });
});

describe('an uncertain width', () => {
  it('leaves a piece that passes by less than the uncertainty to a site measure', () => {
    expect(answer([{ ...doorway(610, 2000), uncertaintyMm: 20 }], upright)).toMatchObject({
      passes: true,
      sure: false,
    });
    expect(answer([{ ...doorway(590, 2000), uncertaintyMm: 20 }], upright)).toMatchObject({
      passes: false,
      sure: false,
    });
    expect(answer([{ ...doorway(640, 2000), uncertaintyMm: 20 }], upright)).toMatchObject({
      passes: true,
      sure: true,
    });
    expect(answer([{ ...doorway(560, 2000), uncertaintyMm: 20 }], upright)).toMatchObject({
      passes: false,
      sure: true,
    });
  });

  it('is sure of a piece that another obstacle stops for certain', () => {
    const obstacles: Obstacle[] = [{ ...doorway(590, 2000), uncertaintyMm: 20 }, doorway(400, 2000)];
    expect(answer(obstacles, upright)).toMatchObject({ passes: false, sure: true });
  });

  it('goes for every obstacle that has none of its own', () => {
    const wayIn = { obstacles: [doorway(610, 2000)], pieces: [upright], uncertaintyMm: 20 };
    expect(checkWayIn(wayIn).pieces[0]).toMatchObject({ passes: true, sure: false });
  });
});

describe('cautions', () => {
  it('say that this is guidance, that local rules come first, and where the people come from', () => {
    const text = checkWayIn({ obstacles: [], pieces: [] }).cautions.join(' ');
    expect(text).toMatch(/not a lifting plan/);
    expect(text).toMatch(/local rules/);
    expect(text).toMatch(/L23/);
  });

  it('ask for an aid where a team of three is not enough', () => {
    expect(answer([], { ...module, massKg: 60 })).toMatchObject({ crew: 4, needsAid: true });
    expect(answer([], { ...module, massKg: 60 }).cautions).toContain('needs-handling-aid');
  });
});
