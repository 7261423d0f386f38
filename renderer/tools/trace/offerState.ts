import type { SimpleCommand } from '../../../src/document/command.ts';
import type { VertexId, ZoneId } from '../../../src/document/ids.ts';
import type { RunEnd } from '../../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../../src/geometry/point.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { partLength } from '../../../src/measure/runPath.ts';
import { type FollowedCounter, followLine } from '../../../src/sheet/followLine.ts';
import { formatLength } from '../../../src/units/formatLength.ts';
import { caughtUncertaintyPt } from '../../snapping/pickUncertainty.ts';
import { arcLengthBetween, lengthBetween, mmPerPaperUnit } from '../paperLengths.ts';
import type { Pick } from '../pick.ts';
import type { ToolContext, ToolStep } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { newRun } from './tracedRun.ts';
import {
  type Bends,
  type TraceIdle,
  type TraceOffer,
  type TraceState,
  type TraceStateRules,
  traceIdle,
} from './traceState.ts';
import { traceUncertaintyPt } from './traceUncertainty.ts';

const endOf = (kind: RunEnd['kind']): RunEnd => ({ kind, giveInMm: 0, giveOutMm: 0 });

/** A point of a followed line: as sure as what is drawn, wherever the hand was when it was followed. */
const drawnPick = (at: PaperPoint): Pick => ({
  at,
  hand: at,
  uncertaintyPt: caughtUncertaintyPt,
  relation: null,
  line: null,
});

/** The points of a followed line and of its arcs. */
const drawnPicks = ({ frontLine, bends }: FollowedCounter): readonly [readonly Pick[], Bends] => [
  frontLine.map(drawnPick),
  bends.map((through) => through && drawnPick(through)),
];

/** Follows the line under the pointer and offers what it finds; says why where it finds nothing. */
export const followed = (state: TraceIdle, context: ToolContext): ToolStep<TraceState> => {
  const { pointer } = state;
  const line = pointer?.line?.number ?? null;
  if (!pointer || line === null || !context.linework)
    return { state, say: 'Point at a line of the counter first, then follow it.' };
  const here = mmPerPaperUnit(context, [pointer.at]);
  if ('say' in here) return { state, say: here.say };
  const { mmPerUnit } = here;
  const counter = followLine(context.linework, line, { mmPerUnit });
  if (counter.frontLine.length < 2)
    return { state, say: 'That line leads nowhere. Trace it point by point.' };
  const { back } = counter;
  const run = newRun(
    counter,
    {
      ...(back ? { backSide: back.side, depthMm: Math.round(back.offset * mmPerUnit) } : {}),
      ends: [endOf(counter.ends[0]), endOf(counter.ends[1])],
      pickUncertaintyPt: traceUncertaintyPt(...drawnPicks(counter)),
    },
    context,
  );
  const zoneIds = [...counter.gaps, ...counter.blocked].map(() => context.freshId());
  return { state: { at: 'offer', from: pointer, counter, run, zoneIds } };
};

/** The run and its zones as one step. */
const taking = ({ run, counter, zoneIds }: TraceOffer) => {
  const zones = [
    ...counter.gaps.map((gap) => ({ ...gap, kind: 'opening' as const, name: 'Opening' })),
    ...counter.blocked.map((one) => ({ ...one, kind: 'blocked' as const, name: one.name })),
  ];
  const commands: SimpleCommand[] = [{ type: 'add-run', run }];
  zones.forEach((zone, index) => {
    const vertex = run.frontLine[zone.straight];
    if (!vertex) throw new Error(`A followed line has no straight ${zone.straight}.`);
    commands.push({
      type: 'add-zone',
      zone: {
        id: `zone-${zoneIds[index]}` as ZoneId,
        runId: run.id,
        kind: zone.kind,
        name: zone.name,
        vertexId: vertex.id as VertexId,
        a: zone.a,
        b: zone.b,
      },
    });
  });
  return { type: 'together' as const, label: 'Follow a line', commands };
};

const counted = (count: number, one: string, many: string): readonly string[] =>
  count === 0 ? [] : [count === 1 ? `1 ${one}` : `${count} ${many}`];

/** How long the front line is that was found: a stroke of a hatch is soon told from a counter. */
const lengthFound = ({ run }: TraceOffer, context: ToolContext): string | null => {
  const here = mmPerPaperUnit(
    context,
    run.frontLine.map(({ at }) => at),
  );
  if ('say' in here) return null;
  const traced = runAsTraced(run);
  const length = run.frontLine.slice(1).reduce((sum, _, index) => sum + partLength(traced, index), 0);
  return formatLength(length * here.mmPerUnit, { unit: context.unit });
};

const found = (counter: FollowedCounter, depth: string | null, length: string | null): string =>
  [
    ...counted(counter.frontLine.length - 1 - counter.arcs.length, 'straight', 'straights'),
    ...counted(counter.arcs.length, 'arc', 'arcs'),
    ...(depth === null ? [] : [`${depth} deep`]),
    ...(length === null ? [] : [`${length} long`]),
    `ends: ${counter.ends[0]}, ${counter.ends[1]}`,
    ...counted(counter.gaps.length, 'opening', 'openings'),
    ...counted(counter.blocked.length, 'blocked zone', 'blocked zones'),
  ].join('; ');

export const offerState: TraceStateRules<TraceOffer> = {
  next(state, event) {
    const isTaken = event.type === 'confirm' || (event.type === 'act' && event.name === 'take');
    if (isTaken && state.counter.back)
      return { state: traceIdle, select: state.run.id, done: true, command: taking(state) };
    if (isTaken) {
      // No back line was found: it is picked as in any other trace.
      const [points, bends] = drawnPicks(state.counter);
      return { state: { at: 'back', points, bends, pointer: state.from } };
    }
    const isRefused = event.type === 'escape' || (event.type === 'act' && event.name === 'leave');
    if (isRefused) return { state: { at: 'idle', pointer: state.from } };
    if (event.type === 'act' && event.name === 'other-side' && state.counter.back) {
      const side = state.counter.back.side === 'left' ? 'right' : 'left';
      return {
        state: {
          ...state,
          counter: { ...state.counter, back: { ...state.counter.back, side } },
          run: { ...state.run, backSide: side },
        },
      };
    }
    return { state };
  },

  view(state, context) {
    const { counter, run } = state;
    const depth = counter.back ? formatLength(run.depthMm, { unit: context.unit }) : null;
    const start = counter.frontLine;
    return toolView({
      prompt: `Found: ${found(counter, depth, lengthFound(state, context))}. ${counter.back ? 'Take it?' : 'Take it, then pick its back line?'}`,
      // With a back line the board shows the run itself, lengths and all.
      lines: (counter.back ? [] : start.slice(1)).map((to, index) => {
        const from = start[index] ?? to;
        const through = counter.bends[index];
        const { pickUncertaintyPt } = run;
        return {
          from,
          to,
          through,
          sure: true,
          ...(through
            ? arcLengthBetween(from, through, to, pickUncertaintyPt, context)
            : lengthBetween(from, to, pickUncertaintyPt, context)),
        };
      }),
      acts: [
        { name: 'take', words: 'Take it', key: 'Return' },
        { name: 'leave', words: 'No', key: 'Esc' },
        ...(counter.back ? [{ name: 'other-side', words: 'Back on the other side', key: 'o' }] : []),
      ],
      preview: counter.back ? taking(state) : null,
      hand: 'sheet',
    });
  },
};
