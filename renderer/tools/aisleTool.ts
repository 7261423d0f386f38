import type { RunId } from '../../src/document/ids.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { type Aisle, aisleBetween } from '../../src/measure/aisle.ts';
import { backLineOf } from '../../src/measure/backLine.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { flattenedPath } from '../../src/measure/runPath.ts';
import { isBadInput } from '../../src/scale/badInput.ts';
import { formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';
import { nearestStraight } from './nearestStraight.ts';
import type { Tool, ToolContext, ToolStep, ToolView } from './tool.ts';
import { toolView } from './toolView.ts';

/** Checking the aisle between two runs: the one, the other, then its narrowest place is shown. Nothing is kept. */
export type AisleState =
  | { readonly at: 'idle'; readonly hover: RunId | null }
  | { readonly at: 'second'; readonly first: RunId; readonly hover: RunId | null }
  | { readonly at: 'shown'; readonly first: RunId; readonly second: RunId };

const idle: AisleState = { at: 'idle', hover: null };

/**
 * Clear width of an accessible route: 36 in (2010 ADA Standards for Accessible Design, 403.5.1; inches are normative).
 * A working aisle that only staff use may be ruled otherwise, so that it is named, not judged.
 */
const accessibleRouteMm = 36 * 25.4;

const runAt = (hand: PaperPoint, context: ToolContext): RunId | null => {
  const near = nearestStraight(context.document, context.sheetId, hand);
  return near && near.distance <= context.touchPt ? near.runId : null;
};

/** The way between the back of one run and the front of the other: whichever way round is narrower is the aisle. */
const aisleOf = (
  first: RunId,
  second: RunId,
  { document, scaleAt }: ToolContext,
): Aisle | null | { readonly say: string } => {
  const [one, other] = [document.runs[first], document.runs[second]];
  if (!one || !other) return null;
  const scale = scaleAt([...one.frontLine, ...other.frontLine].map(({ at }) => at));
  if (!scale) return null;
  if (isBadInput(scale)) return { say: scale.error.message };
  const [a, b] = [runAsTraced(one), runAsTraced(other)];
  const uncertaintyPt = Math.max(one.pickUncertaintyPt, other.pickUncertaintyPt);
  const ways = [
    aisleBetween(backLineOf(a, scale), flattenedPath(b), scale, uncertaintyPt),
    aisleBetween(backLineOf(b, scale), flattenedPath(a), scale, uncertaintyPt),
  ].filter((way) => way !== undefined);
  return ways.reduce<Aisle | null>(
    (narrowest, way) => (narrowest && narrowest.widthMm <= way.widthMm ? narrowest : way),
    null,
  );
};

const widthWords = ({ widthMm, plusMinusMm }: Aisle, { unit }: ToolContext): string =>
  `${formatLength(widthMm, { unit })} ${formatPlusMinus(plusMinusMm, { unit })}`;

const markOn = (runId: RunId | null, { document }: ToolContext) => {
  const run = runId && document.runs[runId];
  const at = run ? run.frontLine[0]?.at : undefined;
  return run && at ? [{ at, relation: null, word: run.name }] : [];
};

export const aisleTool: Tool<AisleState> = {
  name: 'aisle',
  start: () => idle,

  next(state, event, context): ToolStep<AisleState> {
    switch (state.at) {
      case 'idle':
      case 'second': {
        if (event.type === 'pointer-move') {
          const hover = runAt(event.pick.hand, context);
          return { state: hover === state.hover ? state : { ...state, hover } };
        }
        if (event.type === 'escape') return state.at === 'idle' ? { state, done: true } : { state: idle };
        if (event.type === 'confirm') return { state, done: true };
        if (event.type !== 'pointer-down') return { state };
        const touched = runAt(event.pick.hand, context);
        if (!touched) return { state, say: 'Pick on the front line of a run.' };
        if (state.at === 'idle') return { state: { at: 'second', first: touched, hover: null } };
        return touched === state.first
          ? { state, say: 'That is the same run. Pick the one across the aisle.' }
          : { state: { at: 'shown', first: state.first, second: touched } };
      }
      case 'shown':
        if (event.type === 'escape') return { state: { at: 'second', first: state.first, hover: null } };
        return event.type === 'confirm' ? { state, done: true } : { state };
    }
  },

  view(state, context): ToolView {
    switch (state.at) {
      case 'idle':
        return toolView({
          prompt: context.scale
            ? 'Pick the front line of the one run.'
            : 'This sheet has no scale yet: set it before checking an aisle.',
          marks: markOn(state.hover, context),
        });
      case 'second':
        return toolView({
          prompt: 'Pick the front line of the run across the aisle.',
          marks: [...markOn(state.first, context), ...markOn(state.hover, context)],
        });
      case 'shown': {
        const aisle = aisleOf(state.first, state.second, context);
        if (!aisle) return toolView({ prompt: 'One of the runs is gone, or the sheet has no scale.' });
        if ('say' in aisle) return toolView({ prompt: aisle.say });
        const isSure = aisle.widthMm - aisle.plusMinusMm >= accessibleRouteMm;
        return toolView({
          prompt: `Narrowest: ${widthWords(aisle, context)}. ${
            isSure ? 'At least' : 'Not surely'
          } the 36" of an accessible route (2010 ADA Standards, 403.5.1); local codes may ask for more.`,
          lines: [
            {
              from: aisle.onFrontBar,
              to: aisle.onBackBar,
              sure: true,
              lengthMm: aisle.widthMm,
              plusMinusMm: aisle.plusMinusMm,
            },
          ],
          hand: 'sheet',
        });
      }
    }
  },
};
