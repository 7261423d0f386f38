import { lengthExample, typedLength } from '../paperLengths.ts';
import { markOf, noGuides } from '../pick.ts';
import type { ToolContext, ToolStep } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { placedLines } from './frontState.ts';
import { type BackLine, backLineAt, runThrough } from './tracedRun.ts';
import { pathOf, type TraceBack, type TraceState, type TraceStateRules, traceIdle } from './traceState.ts';

/** Depths that the document takes, in mm. */
const typedDepthMm = { least: 50, most: 5000 } as const;

const finished = (
  { points, bends }: TraceBack,
  back: Omit<BackLine, 'isMeasured'>,
  context: ToolContext,
): ToolStep<TraceState> => {
  const run = runThrough(points, bends, back, context);
  return { state: traceIdle, select: run.id, done: true, command: { type: 'add-run', run } };
};

export const backState: TraceStateRules<TraceBack> = {
  next(state, event, context) {
    const { points, bends } = state;
    const traced = pathOf(points, bends);
    switch (event.type) {
      case 'pointer-move':
        return { state: { ...state, pointer: event.pick } };
      case 'escape':
        return { state: { at: 'front', points, bends, arc: null, pointer: state.pointer, hold: null } };
      case 'pointer-down':
        return finished(state, backLineAt(traced, event.pick, context), context);
      case 'confirm': {
        const { backSide } = backLineAt(traced, state.pointer, context);
        return finished(state, { backSide, depthMm: context.runDefaults.depthMm }, context);
      }
      case 'entry': {
        const typed = typedLength(event.text, context);
        if ('say' in typed) return { state, say: typed.say };
        const depthMm = typed.lengthMm;
        if (depthMm < typedDepthMm.least || depthMm > typedDepthMm.most)
          return { state, say: 'A counter’s depth lies between 50 mm and 5 m.' };
        const { backSide } = backLineAt(traced, state.pointer, context);
        return finished(state, { backSide, depthMm }, context);
      }
      case 'act':
        // The pointer lies on no side while it rests on the front line, so the side can be chosen outright as well.
        return event.name === 'left' || event.name === 'right'
          ? finished(state, { backSide: event.name, depthMm: context.runDefaults.depthMm }, context)
          : { state };
      default:
        return { state };
    }
  },

  view(state, context) {
    const { points, bends, pointer } = state;
    const back = backLineAt(pathOf(points, bends), pointer, context);
    return toolView({
      prompt: back.isMeasured
        ? 'Pick this line as the back line; or any place on the working side; or type the depth.'
        : 'Pick the back line, or any place on the working side; or type the depth.',
      entry: { label: 'Depth', example: lengthExample(context, context.runDefaults.depthMm) },
      lines: placedLines(points, bends, context),
      marks: [markOf(pointer)],
      acts: [
        { name: 'left', words: 'Back on the left' },
        { name: 'right', words: 'Back on the right' },
      ],
      guides: noGuides,
    });
  },
};
