import type { Command } from '../../../src/document/command.ts';
import { formatLength } from '../../../src/units/formatLength.ts';
import { alongOf, bendOfStraight, lengthOf, pointAlong, straightFrom } from '../footOnStraight.ts';
import { mmPerPaperUnit, typedLength } from '../paperLengths.ts';
import type { ToolContext } from '../tool.ts';
import { canBeRounded, cornerRounded, radiusGiven } from './bends.ts';
import { frontOf, type Part, selectedRunOf } from './part.ts';

/** A radius that a corner is rounded with at first, in mm. */
const usualRadiusMm = 600;

/** The same as it would be typed. */
export const usualRadius = ({ unit }: ToolContext): string => formatLength(usualRadiusMm, { unit });

/** What can be typed about a part, and what it is now in mm; null where nothing can. */
export const typedAbout = (
  part: Part,
  context: ToolContext,
): { readonly label: string; readonly nowMm: number } | null => {
  const run = selectedRunOf(context);
  if (!run) return null;
  if (part.kind === 'point')
    return canBeRounded(run, part.vertexId)
      ? { label: 'Round it with a radius', nowMm: usualRadiusMm }
      : null;
  const here = mmPerPaperUnit(context, frontOf(run));
  if ('say' in here) return null;
  const { mmPerUnit } = here;
  if (part.kind === 'straight') {
    const straight = straightFrom(run, part.vertexId);
    return straight && { label: 'Length', nowMm: lengthOf(straight) * mmPerUnit };
  }
  if (part.kind === 'bend') {
    const straight = straightFrom(run, part.vertexId);
    const bend = straight && bendOfStraight(straight);
    return bend ? { label: 'Radius', nowMm: bend.radius * mmPerUnit } : null;
  }
  const record =
    part.kind === 'station' ? context.document.stations[part.stationId] : context.document.zones[part.zoneId];
  const straight = record && straightFrom(run, record.vertexId);
  if (!record || !straight) return null;
  if (part.kind === 'zone' && 'a' in record) {
    const a = alongOf(straight, record.a);
    const b = alongOf(straight, record.b);
    return { label: 'Width', nowMm: Math.abs(b - a) * mmPerUnit };
  }
  const at = 'at' in record ? record.at : part.kind === 'zone-side' ? record[part.side] : record.a;
  return { label: 'From the straight’s start', nowMm: alongOf(straight, at) * mmPerUnit };
};

/**
 * The command that gives a part the typed measure: a straight its length, where all behind it goes along; a corner the
 * radius that rounds it; an arc its radius; a zone its
 * width, where the side nearer to the straight's start stays; a zone's side or a station its place along the straight.
 */
export const typedCommand = (
  part: Part,
  text: string,
  context: ToolContext,
): { readonly command: Command | null } | { readonly say: string } => {
  const run = selectedRunOf(context);
  if (!run) return { say: 'Pick a run to work on it.' };
  const here = mmPerPaperUnit(context, frontOf(run));
  if ('say' in here) return here;
  const typed = typedLength(text, context);
  if ('say' in typed) return typed;
  const units = typed.lengthMm / here.mmPerUnit;
  if (part.kind === 'point' && !canBeRounded(run, part.vertexId))
    return { say: 'Choose a straight, a zone or a station to type its measure.' };
  if (part.kind === 'point' || part.kind === 'bend') {
    const { mmPerUnit } = here;
    const asked =
      part.kind === 'bend'
        ? radiusGiven(run, part.vertexId, units, mmPerUnit)
        : cornerRounded(run, part.vertexId, units, mmPerUnit, context.freshId);
    if ('say' in asked) return asked;
    const label = part.kind === 'bend' ? 'Change a radius' : 'Round a corner';
    return { command: { type: 'together', label, commands: [...asked.commands] } };
  }
  if (part.kind === 'straight') {
    const index = run.frontLine.findIndex(({ id }) => id === part.vertexId);
    const straight = straightFrom(run, part.vertexId);
    if (!straight) return { command: null };
    // An arc keeps its sweep: its chord grows as it does.
    const more = units / lengthOf(straight) - 1;
    if (more === 0) return { command: null };
    const by = {
      x: (straight.end.x - straight.start.x) * more,
      y: (straight.end.y - straight.start.y) * more,
    };
    const vertexIds = run.frontLine.slice(index + 1).map(({ id }) => id);
    return { command: { type: 'move-vertices', runId: run.id, vertexIds, by } };
  }
  const record =
    part.kind === 'station' ? context.document.stations[part.stationId] : context.document.zones[part.zoneId];
  const straight = record && straightFrom(run, record.vertexId);
  if (!record || !straight) return { command: null };
  const whole = lengthOf(straight);
  if ('at' in record) {
    if (units > whole) return { say: 'The straight is not that long.' };
    const at = pointAlong(straight, units);
    return { command: { type: 'change-station', stationId: record.id, changes: { at } } };
  }
  const a = alongOf(straight, record.a);
  const b = alongOf(straight, record.b);
  const to = part.kind === 'zone' ? Math.min(a, b) + units : units;
  if (to > whole + 1e-9) return { say: 'The straight is not that long.' };
  const side = part.kind === 'zone-side' ? part.side : a <= b ? 'b' : 'a';
  return {
    command: { type: 'change-zone', zoneId: record.id, changes: { [side]: pointAlong(straight, to) } },
  };
};
