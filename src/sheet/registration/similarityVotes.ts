import type { DistinctLines } from './distinctLines.ts';
import { lineSamples } from './lineSamples.ts';
import type { Similarity } from './similarity.ts';

/** Lines of each sheet that vote: the longest, less where they crowd. Votes grow with the product. */
const VOTERS = 600;

/** Turns between the sheets that are tried: peaks of the correlation of their directions. */
const MOST_TURNS = 6;

const TURN_BINS = 720;

/** A pair of lines votes for a turn where it is within this of it: 0.75 degrees. */
const TURN_REACH = 0.013;

/** Width of a cell in the logarithm of scale, and in place as a share of the new sheet's diagonal. */
const SCALE_CELL = 0.015;
const PLACE_CELL = 1 / 200;

/** Scales from a tenth to ten times. */
const MOST_LOG_SCALE = Math.log(10);

const SLOTS = 1 << 20;

/**
 * Similarities that many pairs of lines of both sheets speak for, best first: a Hough transform (after Ballard, Pattern
 * Recognition 13, 1981, 111-122) over turn, scale and place. A line of the old sheet laid end to end on a line of the
 * new, either way round, is one vote. Lines of common lengths share their votes, so that hatching and repeated furniture
 * do not shout down the walls.
 */
export const similarityVotes = (old: DistinctLines, next: DistinctLines, most: number): Similarity[] => {
  const [oldVoters, newVoters] = [votersOf(old), votersOf(next)];
  const turns = likelyTurns(old, next);
  if (turns.length === 0) return [];
  const centreX = (old.box.minX + old.box.maxX) / 2;
  const centreY = (old.box.minY + old.box.maxY) / 2;
  const placeCell = Math.max(next.diagonal * PLACE_CELL, 1e-6);
  const turnAt = turnTable(turns);
  const votes = voteTable();
  for (const p of oldVoters) {
    const [px, py] = [p.x - centreX, p.y - centreY];
    for (const q of newVoters) {
      const logScale = q.logLength - p.logLength;
      if (logScale > MOST_LOG_SCALE || logScale < -MOST_LOG_SCALE) continue;
      const turn = q.angle - p.angle;
      const turnIndex = turnAt[Math.floor(((turn + Math.PI) / Math.PI) * TABLE_STEPS)]!;
      if (turnIndex < 0) continue;
      const scale = q.length / p.length;
      // cos and sin of the turn between two unit vectors, without a call for either.
      const a = scale * (p.ux * q.ux + p.uy * q.uy);
      const b = scale * (p.ux * q.uy - p.uy * q.ux);
      const [rx, ry] = [a * px - b * py, b * px + a * py];
      const weight = p.share * q.share;
      const precision = Math.min(p.length, q.length);
      // Turns of about 0 and of about half a turn are one family here: the sign tells them apart.
      const half = a < 0 || (a === 0 && b < 0) ? 1 : 0;
      for (let flip = 0; flip < 2; flip++) {
        const sign = flip === 0 ? 1 : -1;
        const [x, y] = [q.x - sign * rx, q.y - sign * ry];
        votes.add(
          turnIndex * 2 + (half ^ flip),
          Math.floor((logScale + MOST_LOG_SCALE) / SCALE_CELL),
          Math.floor((x - next.box.minX) / placeCell),
          Math.floor((y - next.box.minY) / placeCell),
          weight,
          precision,
          sign * a,
          sign * b,
          x,
          y,
        );
      }
    }
  }
  return votes.best(most).map(({ a, b, x, y }) => ({
    a,
    b,
    x0: x - (a * centreX - b * centreY),
    y0: y - (b * centreX + a * centreY),
  }));
};

/** Steps of half a turn in the table of turns. */
const TABLE_STEPS = 3600;

/** For each difference of two directions, from -pi to pi: which of the likely turns it is, or -1. */
const turnTable = (turns: readonly number[]): Int8Array =>
  Int8Array.from({ length: 2 * TABLE_STEPS + 1 }, (_, step) => {
    const turn = ((step + 0.5) / TABLE_STEPS - 1) * Math.PI;
    return turns.findIndex((each) => Math.abs(halfTurn(turn - each)) <= TURN_REACH);
  });

/** An undirected turn, from -pi/2 to pi/2. */
const halfTurn = (turn: number): number => turn - Math.PI * Math.round(turn / Math.PI);

interface Voter {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
  readonly logLength: number;
  /** 1 over the root of the number of voters of about this length. */
  readonly share: number;
}

const votersOf = (lines: DistinctLines): Voter[] => {
  const samples = lineSamples(lines);
  const worth = new Float64Array(lines.count);
  for (let i = 0; i < samples.count; i++) worth[samples.line[i]!]! += samples.weight[i]!;
  const order = Array.from(worth.keys())
    .sort((i, j) => worth[j]! - worth[i]! || i - j)
    .slice(0, VOTERS)
    .sort((i, j) => lines.length[i]! - lines.length[j]! || i - j);
  const { ends, angle, length } = lines;
  let [first, after] = [0, 0];
  return order.map((i) => {
    while (length[order[first]!]! < length[i]! * 0.997) first++;
    while (after < order.length && length[order[after]!]! <= length[i]! * 1.003) after++;
    return {
      x: (ends[i * 4]! + ends[i * 4 + 2]!) / 2,
      y: (ends[i * 4 + 1]! + ends[i * 4 + 3]!) / 2,
      angle: angle[i]!,
      ux: Math.cos(angle[i]!),
      uy: Math.sin(angle[i]!),
      length: length[i]!,
      logLength: Math.log(length[i]!),
      share: 1 / Math.sqrt(after - first),
    };
  });
};

/** The turns, modulo half a turn, at which much of both sheets runs in the same directions; likeliest first. */
const likelyTurns = (old: DistinctLines, next: DistinctLines): number[] => {
  const [p, q] = [directionHistogram(old), directionHistogram(next)];
  const filled = Array.from(p.keys()).filter((bin) => p[bin]! > 0);
  const likeness = new Float64Array(TURN_BINS);
  for (let turn = 0; turn < TURN_BINS; turn++)
    for (const bin of filled) likeness[turn]! += p[bin]! * q[(bin + turn) % TURN_BINS]!;
  const most = likeness.reduce((best, each) => Math.max(best, each), 0);
  const peaks = Array.from(likeness.keys()).filter((turn) => {
    const here = likeness[turn]!;
    if (!(here > 0.05 * most)) return false;
    for (let step = -4; step <= 4; step++) {
      const other = likeness[(turn + step + TURN_BINS) % TURN_BINS]!;
      if (other > here || (other === here && step < 0)) return false;
    }
    return true;
  });
  return peaks
    .sort((i, j) => likeness[j]! - likeness[i]! || i - j)
    .slice(0, MOST_TURNS)
    .map((turn) => (turn / TURN_BINS) * Math.PI);
};

/** Square root of the length in each direction: so that one long family does not decide alone. Spread over 3 bins. */
const directionHistogram = (lines: DistinctLines): Float64Array => {
  const raw = new Float64Array(TURN_BINS);
  for (let i = 0; i < lines.count; i++)
    raw[Math.round((lines.angle[i]! / Math.PI) * TURN_BINS) % TURN_BINS]! += lines.length[i]!;
  return raw.map((each, bin) => {
    const beside = raw[(bin + 1) % TURN_BINS]! + raw[(bin + TURN_BINS - 1) % TURN_BINS]!;
    return Math.sqrt(each + 0.5 * beside);
  });
};

/** The similarity of one pair of lines: a and b, and where it takes the centre of the old lines. */
interface Vote {
  readonly a: number;
  readonly b: number;
  readonly x: number;
  readonly y: number;
}

/** Cells that were voted for, by open addressing: the four-dimensional space is far too large to lay out. */
const voteTable = () => {
  const keys = new Float64Array(SLOTS).fill(-1);
  const weights = new Float32Array(SLOTS);
  /** The longest pair of each cell, whose scale and turn are the most exact: its length, a, b, x, y. */
  const longest = new Float32Array(SLOTS);
  const kept = new Float32Array(SLOTS * 4);
  let used = 0;
  return {
    add: (
      turn: number,
      scale: number,
      column: number,
      row: number,
      weight: number,
      precision: number,
      a: number,
      b: number,
      x: number,
      y: number,
    ): void => {
      if (column < -400 || column > 600 || row < -400 || row > 600) return;
      const key = ((turn * 400 + scale) * 1024 + column + 400) * 1024 + row + 400;
      const mixed = Math.imul(Math.floor(key / 4096) ^ Math.imul(key % 1048576, 0x9e3779b1), 0x85ebca6b);
      let slot = (mixed ^ (mixed >>> 13)) & (SLOTS - 1);
      while (keys[slot] !== key && keys[slot] !== -1) slot = (slot + 1) & (SLOTS - 1);
      if (keys[slot] === -1) {
        if (used > SLOTS * 0.85) return;
        used++;
        keys[slot] = key;
      }
      weights[slot]! += weight;
      if (longest[slot]! >= precision) return;
      longest[slot] = precision;
      kept[slot * 4] = a;
      kept[slot * 4 + 1] = b;
      kept[slot * 4 + 2] = x;
      kept[slot * 4 + 3] = y;
    },
    best: (most: number): Vote[] => {
      const slots: number[] = [];
      const least = thresholdFor(weights, most * 4);
      for (let slot = 0; slot < SLOTS; slot++) if (weights[slot]! > least) slots.push(slot);
      return slots
        .sort((i, j) => weights[j]! - weights[i]! || keys[i]! - keys[j]!)
        .slice(0, most)
        .map((slot) => ({
          a: kept[slot * 4]!,
          b: kept[slot * 4 + 1]!,
          x: kept[slot * 4 + 2]!,
          y: kept[slot * 4 + 3]!,
        }));
    },
  };
};

/** A weight that about `most` cells exceed. */
const thresholdFor = (weights: Float32Array, most: number): number => {
  let top = 0;
  for (const weight of weights) if (weight > top) top = weight;
  const steps = new Uint32Array(1001);
  for (const weight of weights) if (weight > 0) steps[Math.floor((weight / top) * 1000)]!++;
  let count = 0;
  for (let step = 1000; step >= 0; step--) {
    count += steps[step]!;
    if (count > most) return (step / 1000) * top * 0.9999;
  }
  return 0;
};
