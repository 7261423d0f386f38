import type { PaperPoint } from '../../../src/geometry/point.ts';
import type { Vector } from '../../../src/geometry/vector.ts';
import type { Pick } from '../pick.ts';
import type { ToolContext, ToolEvent, ToolStep, ToolView } from '../tool.ts';
import type { Part } from './part.ts';

/** Nothing is being moved. */
export interface EditIdle {
  readonly at: 'idle';
  /** The chosen part of the selected run. */
  readonly part: Part | null;
  /** The part under the hand. */
  readonly hover: Part | null;
}

/** A part is pressed; it is not known yet whether to drag or to choose it. */
export interface EditPressed {
  readonly at: 'pressed';
  readonly part: Part;
  /** Whether the whole run is meant. */
  readonly isWhole: boolean;
  readonly hand: PaperPoint;
}

/** A part, or the whole run, follows the pointer. */
export interface EditDragging {
  readonly at: 'dragging';
  readonly part: Part;
  readonly isWhole: boolean;
  readonly from: PaperPoint;
  readonly to: Pick;
}

/** Arrow keys move the chosen part: by so far up to now, on the paper. */
export interface EditNudging {
  readonly at: 'nudging';
  readonly part: Part;
  readonly by: Vector;
}

/** The whole run is moved by two picks: from where, to where. */
export interface EditCarrying {
  readonly at: 'carrying';
  readonly from: Pick | null;
  readonly pointer: Pick | null;
}

export type EditState = EditIdle | EditPressed | EditDragging | EditNudging | EditCarrying;

export const editIdle = (part: Part | null = null): EditIdle => ({ at: 'idle', part, hover: null });

/** One state of the tool: what it does with events, and what it shows. */
export interface EditStateRules<State extends EditState> {
  readonly next: (state: State, event: ToolEvent, context: ToolContext) => ToolStep<EditState>;
  readonly view: (state: State, context: ToolContext) => ToolView;
}
