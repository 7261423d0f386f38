import type { Command } from '../../../src/document/command.ts';
import { projectOntoLine } from '../../../src/geometry/line.ts';
import { distanceBetween } from '../../../src/geometry/vector.ts';
import { pointAlong, straightFrom } from '../footOnStraight.ts';
import { mmPerPaperUnit, typedLength } from '../paperLengths.ts';
import type { ToolContext } from '../tool.ts';
import { frontOf, type Part, selectedRunOf } from './part.ts';

/** What can be typed about a part, and what it is now in mm; null where nothing can. */
export const typedAbout = (
  part: Part,
  context: ToolContext,
): { readonly label: string; readonly nowMm: number } | null => {
  const run = selectedRunOf(context);
  if (!run || part.kind === 'point') return null;
  const here = mmPerPaperUnit(context, frontOf(run));
  if ('say' in here) return null;
  const { mmPerUnit } = here;
  if (part.kind === 'straight') {
    const straight = straightFrom(run, part.vertexId);
    return straight && { label: 'Length', nowMm: distanceBetween(straight.start, straight.end) * mmPerUnit };
  }
  const record =
    part.kind === 'station' ? context.document.stations[part.stationId] : context.document.zones[part.zoneId];
  const straight = record && straightFrom(run, record.vertexId);
  if (!record || !straight) return null;
  if (part.kind === 'zone' && 'a' in record) {
    const a = projectOntoLine(record.a, straight).along;
    const b = projectOntoLine(record.b, straight).along;
    return { label: 'Width', nowMm: Math.abs(b - a) * mmPerUnit };
  }
  const at = 'at' in record ? record.at : part.kind === 'zone-side' ? record[part.side] : record.a;
  return { label: 'From the straight’s start', nowMm: projectOntoLine(at, straight).along * mmPerUnit };
};

/**
 * The command that gives a part the typed measure: a straight its length, where all behind it goes along; a zone its
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
  if (part.kind === 'point') return { say: 'Choose a straight, a zone or a station to type its measure.' };
  if (part.kind === 'straight') {
    const index = run.frontLine.findIndex(({ id }) => id === part.vertexId);
    const straight = straightFrom(run, part.vertexId);
    if (!straight) return { command: null };
    const now = distanceBetween(straight.start, straight.end);
    const more = units - now;
    if (more === 0) return { command: null };
    const by = {
      x: ((straight.end.x - straight.start.x) / now) * more,
      y: ((straight.end.y - straight.start.y) / now) * more,
    };
    const vertexIds = run.frontLine.slice(index + 1).map(({ id }) => id);
    return { command: { type: 'move-vertices', runId: run.id, vertexIds, by } };
  }
  const record =
    part.kind === 'station' ? context.document.stations[part.stationId] : context.document.zones[part.zoneId];
  const straight = record && straightFrom(run, record.vertexId);
  if (!record || !straight) return { command: null };
  const whole = distanceBetween(straight.start, straight.end);
  if ('at' in record) {
    if (units > whole) return { say: 'The straight is not that long.' };
    const at = pointAlong(straight, units);
    return { command: { type: 'change-station', stationId: record.id, changes: { at } } };
  }
  const a = projectOntoLine(record.a, straight).along;
  const b = projectOntoLine(record.b, straight).along;
  const to = part.kind === 'zone' ? Math.min(a, b) + units : units;
  if (to > whole + 1e-9) return { say: 'The straight is not that long.' };
  const side = part.kind === 'zone-side' ? part.side : a <= b ? 'b' : 'a';
  return {
    command: { type: 'change-zone', zoneId: record.id, changes: { [side]: pointAlong(straight, to) } },
  };
};
