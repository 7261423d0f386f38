import { type PaperPoint, paperPoint } from '../../../src/geometry/point.ts';
import { distanceBetween } from '../../../src/geometry/vector.ts';
import { parseAngle } from '../../../src/units/angle.ts';
import { lastStraightRad } from '../holds.ts';
import { mmPerPaperUnit, typedLength } from '../paperLengths.ts';
import type { Guides } from '../pick.ts';
import type { ToolContext } from '../tool.ts';

/** What was typed for the next straight: its end; a direction alone, to be held; or why it is neither. */
export type TypedStraight =
  | { readonly kind: 'end'; readonly at: PaperPoint }
  | { readonly kind: 'direction'; readonly alongRad: number }
  | { readonly kind: 'refused'; readonly say: string };

const refused = (say: string): TypedStraight => ({ kind: 'refused', say });

/** Length, then perhaps a word for the direction, then perhaps an angle: `3600`, `3600 at 30`, `3600 left`, `at 30`. */
const form = /^(.*?)(?:(?:^|\s+)(at|left|right|on)(?:\s+(\S.*))?)?$/i;

const turnOf = (word: string, typed: string | undefined) => {
  if (word === 'on') return typed === undefined ? { rad: 0 } : { say: 'Straight on takes no angle.' };
  if (typed === undefined)
    return word === 'at'
      ? { say: 'Type the angle behind “at”, such as 3600 at 30.' }
      : { rad: word === 'left' ? Math.PI / 2 : -Math.PI / 2 };
  const angle = parseAngle(typed);
  if (!angle.ok) return { say: angle.message };
  return { rad: word === 'right' ? -angle.angleRad : angle.angleRad };
};

/**
 * Reads what was typed for the straight that starts at the anchor. `3600` goes the way of the pointer; `3600 at 30` goes
 * 30 degrees anticlockwise from the right of the sheet as shown; `3600 left`, `3600 right 45` and `3600 on` go by the last
 * straight; a direction without a length is held. Lengths as `parseLength` reads them, angles as `parseAngle` does.
 */
export const typedStraight = (
  text: string,
  guides: Guides,
  pointer: PaperPoint,
  context: ToolContext,
): TypedStraight => {
  const { anchor } = guides;
  if (!anchor) return refused('Pick where it starts first.');
  const [, length = '', typedWord, angle] = form.exec(text.trim()) ?? [];
  const word = typedWord?.toLowerCase();
  let alongRad: number;
  if (word === undefined) {
    if (distanceBetween(anchor, pointer) === 0)
      return refused('Point the way that the straight goes, then type its length; or type 3600 at 30.');
    alongRad = Math.atan2(pointer.y - anchor.y, pointer.x - anchor.x);
  } else {
    const turn = turnOf(word, angle);
    if (turn.say !== undefined) return refused(turn.say);
    const from = word === 'at' ? context.sheetRightRad : lastStraightRad(guides);
    if (from === null) return refused('There is no straight yet to turn from: type 3600 at 30.');
    alongRad = from + turn.rad;
  }
  if (length === '') return word === undefined ? refused('Type a length.') : { kind: 'direction', alongRad };
  const here = mmPerPaperUnit(context, [anchor]);
  if ('say' in here) return refused(here.say);
  const typed = typedLength(length, context);
  if ('say' in typed) return refused(typed.say);
  const units = typed.lengthMm / here.mmPerUnit;
  const at = paperPoint(anchor.x + Math.cos(alongRad) * units, anchor.y + Math.sin(alongRad) * units);
  const there = mmPerPaperUnit(context, [anchor, at]);
  return 'say' in there ? refused(there.say) : { kind: 'end', at };
};
