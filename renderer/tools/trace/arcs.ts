import { type Arc, arcThrough, pointOnArc, tangentArc } from '../../../src/geometry/arc.ts';
import { type PaperPoint, paperPoint } from '../../../src/geometry/point.ts';
import { signedTurnRad } from '../../../src/geometry/turn.ts';
import { cross, leftOf, movedBy, type Vector, vectorBetween } from '../../../src/geometry/vector.ts';
import { parseAngle } from '../../../src/units/angle.ts';
import { mmPerPaperUnit, typedLength } from '../paperLengths.ts';
import type { Pick } from '../pick.ts';
import type { ToolContext } from '../tool.ts';
import { lastDirection, type TraceFront } from './traceState.ts';

/** The next stretch as an arc: where it ends, and a point on it. */
export interface NextArc {
  readonly end: PaperPoint;
  readonly through: PaperPoint;
}

const nextArc = (arc: Arc, end?: PaperPoint): NextArc => {
  const [middle, last] = [pointOnArc(arc, 0.5), pointOnArc(arc, 1)];
  return { end: end ?? paperPoint(last.x, last.y), through: paperPoint(middle.x, middle.y) };
};

/** The arc of a radius that leaves a point in a direction and turns by an angle, to the left where that is positive. */
const arcTurning = (start: PaperPoint, along: Vector, radius: number, sweepRad: number): Arc => {
  const centre = movedBy(start, leftOf(along), sweepRad < 0 ? -radius : radius);
  return { centre, radius, startAngleRad: Math.atan2(start.y - centre.y, start.x - centre.x), sweepRad };
};

/**
 * The arc that a pick would end: on from the last straight, or through the point picked before. With a radius held, the
 * pick says how far it goes and to which side. Null where there is none: no last straight, or all in one line.
 */
export const arcTo = (state: TraceFront, pick: Pick): NextArc | null => {
  const start = state.points.at(-1)?.at;
  const { arc } = state;
  if (!start || !arc) return null;
  if (arc.kind === 'through') {
    const found = arc.through && arcThrough(start, arc.through.at, pick.at);
    return found && arc.through ? { end: pick.at, through: arc.through.at } : null;
  }
  const along = lastDirection(state.points, state.bends);
  if (!along) return null;
  if (arc.radius === null) {
    const found = tangentArc(start, along, pick.at);
    return found ? nextArc(found, pick.at) : null;
  }
  const side = cross(along, vectorBetween(start, pick.at)) < 0 ? -1 : 1;
  const centre = movedBy(start, leftOf(along), side * arc.radius);
  const towards = vectorBetween(centre, pick.at);
  const turned = side * signedTurnRad(vectorBetween(centre, start), towards);
  // Beyond half a circle the hand goes on round.
  const sweepRad = turned < 0 ? turned + 2 * Math.PI : turned;
  return sweepRad < 1e-6 ? null : nextArc(arcTurning(start, along, arc.radius, side * sweepRad));
};

/** What was typed of an arc: the arc; its radius alone, to be held; or why it is neither. */
export type TypedArc =
  | { readonly kind: 'arc'; readonly arc: NextArc }
  | { readonly kind: 'radius'; readonly radius: number }
  | { readonly kind: 'refused'; readonly say: string };

const refused = (say: string): TypedArc => ({ kind: 'refused', say });

/** `r 1200`, `r 1200 sweep 90`, `r 1200 long 1885`, each with `left` or `right` behind it. */
const form = /^r\s+(.+?)(?:\s+(sweep|long)\s+(.+?))?(?:\s+(left|right))?$/i;

/** Whether what was typed is meant as an arc. */
export const isTypedArc = (text: string): boolean => /^r\s/i.test(text.trim());

/**
 * Reads what was typed for an arc that goes on from the last straight: its radius, then how far it sweeps or how long it
 * is, then perhaps the side; without a side it goes to the side of the pointer. Lengths as `parseLength` reads them,
 * angles as `parseAngle` does.
 */
export const typedArc = (text: string, state: TraceFront, context: ToolContext): TypedArc => {
  const start = state.points.at(-1)?.at;
  const along = lastDirection(state.points, state.bends);
  const [, radiusText = '', word, measure = '', sideWord] = form.exec(text.trim()) ?? [];
  if (!start || !along) return refused('An arc of a typed radius goes on from a straight: pick one first.');
  if (radiusText === '') return refused('Type the radius and how far it goes, such as r 1200 sweep 90.');
  const here = mmPerPaperUnit(context, [start]);
  if ('say' in here) return refused(here.say);
  const typed = typedLength(radiusText, context);
  if ('say' in typed) return refused(typed.say);
  const radius = typed.lengthMm / here.mmPerUnit;
  if (word === undefined && sideWord === undefined) return { kind: 'radius', radius };
  let sweepRad: number;
  if (word?.toLowerCase() === 'sweep') {
    const angle = parseAngle(measure);
    if (!angle.ok) return refused(angle.message);
    sweepRad = angle.angleRad;
  } else if (word?.toLowerCase() === 'long') {
    const length = typedLength(measure, context);
    if ('say' in length) return refused(length.say);
    sweepRad = length.lengthMm / typed.lengthMm;
  } else return refused('Type how far the arc goes too, such as r 1200 sweep 90 left.');
  if (!(sweepRad > 0 && sweepRad < 2 * Math.PI - 1e-6))
    return refused('An arc turns by more than nothing and less than a full circle.');
  const isRight = sideWord
    ? sideWord.toLowerCase() === 'right'
    : cross(along, vectorBetween(start, state.pointer.at)) < 0;
  return { kind: 'arc', arc: nextArc(arcTurning(start, along, radius, isRight ? -sweepRad : sweepRad)) };
};
