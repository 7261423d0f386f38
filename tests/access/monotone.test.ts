import { describe, expect, it } from 'vitest';
import { checkWayIn, type PieceAnswer } from '../../src/access/checkWayIn.ts';
import { type AccessPiece, LONGEST_DESCRIBABLE_MM, type Obstacle } from '../../src/access/wayInSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { randomObstacle, randomPiece, reduced, widened } from './randomWayIn.ts';

const SEED = 550_121;

const answerFor = (obstacles: readonly Obstacle[], piece: AccessPiece): PieceAnswer =>
  checkWayIn({ obstacles, pieces: [piece] }).pieces[0]!;

describe('answers about the way in', () => {
  it('let a piece by a wider obstacle, and a smaller piece by the same one, wherever they let the piece by', () => {
    const random = seededRandom(SEED);
    const count = campaignSize({ sample: 400, full: 10_000 });
    const failures: string[] = [];
    let passing = 0;
    for (let index = 0; index < count; index += 1) {
      const obstacle = randomObstacle(random);
      const loose = randomPiece(random);
      const { longestMm } = answerFor([obstacle], loose);
      // Close below its limit a piece has the most to lose.
      const near = longestMm > 50 && longestMm < 20_000 && random.chance(0.7);
      const piece = near ? { ...loose, lengthMm: longestMm * (1 - 0.03 * random.next()) } : loose;
      const wider = widened(obstacle, random);
      const smaller = reduced(piece, random);
      if (!answerFor([obstacle], piece).passes) continue;
      passing += 1;
      const what = `seed ${SEED} case ${index}: ${JSON.stringify(obstacle)} ${JSON.stringify(piece)}`;
      if (!answerFor([wider], piece).passes) failures.push(`${what}: stopped by ${JSON.stringify(wider)}`);
      if (!answerFor([obstacle], smaller).passes)
        failures.push(`${what}: ${JSON.stringify(smaller)} is stopped`);
    }
    expect(failures).toEqual([]);
    expect(passing).toBeGreaterThan(count / 3);
  }, 900_000);

  it('name a longest piece that passes, while one a millimetre longer does not', () => {
    const random = seededRandom(SEED + 1);
    const count = campaignSize({ sample: 300, full: 10_000 });
    const failures: string[] = [];
    let limited = 0;
    for (let index = 0; index < count; index += 1) {
      const obstacles = Array.from({ length: random.integer(1, 4) }, () => randomObstacle(random));
      const piece = { ...randomPiece(random), massKg: 1 };
      const answer = answerFor(obstacles, piece);
      const what = `seed ${SEED + 1} case ${index}: ${JSON.stringify(obstacles)} ${JSON.stringify(piece)}`;
      const withLength = (lengthMm: number): PieceAnswer => answerFor(obstacles, { ...piece, lengthMm });
      if (answer.longestMm > 0 && !withLength(answer.longestMm).passes)
        failures.push(`${what}: ${answer.longestMm} is stopped`);
      if (answer.longestMm < LONGEST_DESCRIBABLE_MM - 1) {
        limited += 1;
        if (withLength(answer.longestMm + 1).passes)
          failures.push(`${what}: longer than ${answer.longestMm} passes`);
      }
      if (answer.passes !== piece.lengthMm <= answer.longestMm + 0.0011) {
        failures.push(`${what}: passes ${answer.passes} but the longest is ${answer.longestMm}`);
      }
      if (answer.passes !== answer.marginMm >= 0)
        failures.push(`${what}: passes ${answer.passes}, margin ${answer.marginMm}`);
      if (answer.obstacles[answer.limitedByIndex!]?.marginMm !== answer.marginMm)
        failures.push(`${what}: limiting obstacle`);
    }
    expect(failures).toEqual([]);
    expect(limited).toBeGreaterThan(count / 3);
  }, 900_000);
});
