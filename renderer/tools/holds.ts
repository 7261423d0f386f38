import { signedTurnRad } from '../../src/geometry/turn.ts';
import { type Vector, vectorBetween } from '../../src/geometry/vector.ts';
import type { Guides, Hold } from './pick.ts';
import type { ToolAct } from './tool.ts';

const quarter = Math.PI / 2;
const stepRad = Math.PI / 12;

const wayOf = (angleRad: number): Vector => ({ x: Math.cos(angleRad), y: Math.sin(angleRad) });

/** Direction of the last straight, towards the anchor; null where there is none. */
export const lastStraightRad = ({ anchor, before }: Guides): number | null => {
  if (!anchor || !before) return null;
  const way = vectorBetween(before, anchor);
  return way.x === 0 && way.y === 0 ? null : Math.atan2(way.y, way.x);
};

/** The one of `start`, `start + step`, … that is nearest to a direction. */
const nearestStep = (towardsRad: number, startRad: number, step: number): number =>
  startRad + Math.round(signedTurnRad(wayOf(startRad), wayOf(towardsRad)) / step) * step;

/**
 * The direction in which a hold keeps the next straight, given where the hand points from the anchor; null where the
 * hold says nothing because there is no last straight to go by.
 */
export const heldDirectionRad = (
  hold: Hold,
  guides: Guides,
  towardsRad: number,
  sheetRightRad: number,
): number | null => {
  const last = lastStraightRad(guides);
  switch (hold.kind) {
    case 'on':
      return last;
    case 'square':
      return last === null ? null : nearestStep(towardsRad, last + quarter, Math.PI);
    case 'sheet':
      return nearestStep(towardsRad, sheetRightRad, quarter);
    case 'steps':
      return nearestStep(towardsRad, last ?? sheetRightRad, stepRad);
    case 'direction':
      return nearestStep(towardsRad, hold.alongRad, Math.PI);
  }
};

const words: Readonly<Record<Hold['kind'], string>> = {
  on: 'straight on',
  square: 'square to the last',
  sheet: 'to the sheet',
  steps: '15° steps',
  direction: 'one direction',
};

const order: readonly (Hold['kind'] | null)[] = [null, 'on', 'square', 'sheet', 'steps'];

/** The hold after this one, when the operator steps through them. Those that need a last straight are left out without. */
export const nextHold = (hold: Hold | null, guides: Guides): Hold | null => {
  const offered =
    lastStraightRad(guides) === null ? order.filter((kind) => kind !== 'on' && kind !== 'square') : order;
  const place = offered.indexOf(hold?.kind ?? null);
  const kind = offered[(place + 1) % offered.length] ?? null;
  return kind === null || kind === 'direction' ? null : { kind };
};

/** The act that steps through the holds, saying what is held now. */
export const holdAct = (hold: Hold | null): ToolAct => ({
  name: 'hold',
  words: hold ? `Held ${words[hold.kind]}` : 'Hold the direction',
  key: 'h',
});
