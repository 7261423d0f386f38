import type { Point } from '../../geometry/point.ts';
import { doTurnedBoxesOverlap, type TurnedBox, turnedBox } from './turnedBox.ts';

/** A label found a place: the middle of its box, and the end of its leader at the box. */
export interface PlacedLabel {
  readonly at: Point;
  readonly leaderEnd: Point;
}

/** A line as a thin box. */
export const stripe = (from: Point, to: Point, width: number): TurnedBox =>
  turnedBox(
    { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 },
    Math.atan2(to.y - from.y, to.x - from.x),
    Math.hypot(to.x - from.x, to.y - from.y),
    width,
  );

/** What is taken on a paper, and where a label may still stand; mm of paper. */
export class LabelField {
  readonly #taken: TurnedBox[] = [];
  /** Where no leader may cross: letters. */
  readonly #letters: TurnedBox[] = [];

  take(box: TurnedBox): void {
    this.#taken.push(box);
  }

  takeLetters(box: TurnedBox): void {
    this.#letters.push(box);
    this.#taken.push(box);
  }

  /** Whether a box lies over none of the letters taken so far. */
  isClearOfLetters(box: TurnedBox): boolean {
    return !this.#letters.some((other) => doTurnedBoxesOverlap(box, other));
  }

  /**
   * Finds the level label `width` by `height` a place near `foot`, led out along one of the directions (unit vectors, best
   * first) and as near as can be; takes it. Where everything within reach is taken it goes further out, so that it always
   * finds one.
   */
  place(foot: Point, width: number, height: number, directions: readonly Point[]): PlacedLabel {
    for (let distance = 3.5; ; distance += distance < 60 ? 2.5 : 25) {
      for (const out of directions)
        for (const aside of [0, 0.35, -0.35, 0.8, -0.8]) {
          const direction = { x: out.x - out.y * aside, y: out.y + out.x * aside };
          const length = Math.hypot(direction.x, direction.y);
          const tip = {
            x: foot.x + (direction.x / length) * distance,
            y: foot.y + (direction.y / length) * distance,
          };
          // The box stands beyond the tip: right or left of it where the leader runs that way, else over or under it.
          const isLevel = Math.abs(direction.x) > 0.4 * Math.abs(direction.y);
          const at = isLevel
            ? { x: tip.x + Math.sign(direction.x) * (width / 2 + 0.6), y: tip.y }
            : { x: tip.x, y: tip.y + Math.sign(direction.y) * (height / 2 + 0.6) };
          const box = turnedBox(at, 0, width + 0.8, height + 0.8);
          const leader = stripe(foot, tip, 0.3);
          if (this.#taken.some((other) => doTurnedBoxesOverlap(box, other))) continue;
          // A leader across letters is better than a label that is not near its place.
          const isNear = distance < 45;
          if (isNear && this.#letters.some((other) => doTurnedBoxesOverlap(leader, other))) continue;
          this.takeLetters(box);
          this.#taken.push(leader);
          return { at, leaderEnd: tip };
        }
      if (distance > 2000) throw new Error('A label found no place within two metres of paper.');
    }
  }

  /** The nearest free place for a turned text straight out from one of several edges; takes it. */
  placeTurned(
    edges: readonly { readonly foot: Point; readonly out: Point }[],
    angleRad: number,
    width: number,
    height: number,
  ): Point {
    for (let distance = height / 2 + 1; ; distance += 2.5)
      for (const { foot, out } of edges)
        for (const aside of [0, -0.6, 0.6]) {
          const at = {
            x: foot.x + out.x * distance + Math.cos(angleRad) * aside * width,
            y: foot.y + out.y * distance + Math.sin(angleRad) * aside * width,
          };
          const box = turnedBox(at, angleRad, width + 1, height);
          if (this.#taken.some((other) => doTurnedBoxesOverlap(box, other))) continue;
          this.takeLetters(box);
          return at;
        }
  }
}
