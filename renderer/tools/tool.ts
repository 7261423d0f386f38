import type { Command } from '../../src/document/command.ts';
import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { Vector } from '../../src/geometry/vector.ts';
import type { SheetScale } from '../../src/measure/tracedRun.ts';
import type { BadInput } from '../../src/scale/badInput.ts';
import type { LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { Guides, Pick, Relation } from './pick.ts';

/**
 * A tool is a small state machine without side effects: events go in, the next state and commands come out. The board
 * turns pointer, key and entry-line input into events; tests write the same events as sentences.
 */

export type ToolEvent =
  | { readonly type: 'pointer-move'; readonly pick: Pick }
  | { readonly type: 'pointer-down'; readonly pick: Pick; readonly shift: boolean; readonly ctrl: boolean }
  | { readonly type: 'pointer-up'; readonly pick: Pick }
  /** The press turned into a gesture of the view: forget it. */
  | { readonly type: 'pointer-cancel' }
  /** Text sent from the entry line. */
  | { readonly type: 'entry'; readonly text: string }
  /** Return with an empty entry line, or a double click: finish what is being done. */
  | { readonly type: 'confirm' }
  /** Back out one step. */
  | { readonly type: 'escape' }
  /** Delete or Backspace with an empty entry line. */
  | { readonly type: 'delete' }
  /** An arrow key: so many mm in the room, as a direction on the paper. Comes again while the key is held. */
  | { readonly type: 'nudge'; readonly byMm: Vector }
  /** The arrow key was let go. */
  | { readonly type: 'nudge-end' }
  /** To the next or the previous part of what is selected. */
  | { readonly type: 'step'; readonly by: 1 | -1 }
  /** An act that the tool offers by name in the entry line's row. */
  | { readonly type: 'act'; readonly name: string };

/** What a tool may look at. All of it is read-only. */
export interface ToolContext {
  readonly document: ProjectDocument;
  readonly sheetId: SheetId;
  /** Null until the sheet has a scale. */
  readonly scale: SheetScale | null;
  /**
   * The scale that holds at places of the sheet: that of the view in which they lie, else the sheet's own. Null until the
   * sheet has one; the reason where they lie in views of different scale.
   */
  readonly scaleAt: (places: readonly PaperPoint[]) => SheetScale | BadInput | null;
  readonly userUnit: number;
  readonly unit: DisplayUnit;
  readonly selectedRunId: RunId | null;
  readonly freshId: () => string;
  /** Everything of a new run but its ids, name and points. */
  readonly runDefaults: Omit<Run, 'id' | 'sheetId' | 'name' | 'frontLine' | 'pickUncertaintyPt'>;
  /** How close, in paper units, counts as touching at the present zoom. */
  readonly touchPt: number;
  /** The sheet's own lines; null until they have been read. */
  readonly linework: LineworkIndex | null;
  /** Direction on the paper that points to the right on the sheet as it is shown. */
  readonly sheetRightRad: number;
}

export interface ToolStep<State> {
  readonly state: State;
  readonly command?: Command;
  /** The state to take where the command is refused; absent: the one before the event. */
  readonly ifRefused?: State;
  /** Selects a run (or none). */
  readonly select?: RunId | null;
  /** Something to tell the operator, such as why a typed length was not taken. */
  readonly say?: string;
  /** The tool is done; the board goes back to the tool for selecting and editing. */
  readonly done?: boolean;
}

/** A line being drawn: a `sure` one is placed, others follow the pointer. With a length to show, in mm, if known. */
export interface ToolLine {
  readonly from: PaperPoint;
  readonly to: PaperPoint;
  readonly sure: boolean;
  /** A point on the arc that it is, where it is one. */
  readonly through?: PaperPoint | undefined;
  readonly radiusMm?: number;
  readonly lengthMm?: number;
  readonly plusMinusMm?: number;
  /** Why it has no length though the sheet has a scale. */
  readonly noLength?: string;
}

/** A place marked with short strokes that show its relation, and a word where it says something. */
export interface ToolMark {
  readonly at: PaperPoint;
  readonly relation: Relation | null;
  readonly word: string | null;
}

/** Where a part of the selected thing can be taken hold of. */
export interface ToolHandle {
  readonly at: PaperPoint;
  /** Direction of the line that the handle sits across. */
  readonly alongRad: number;
  readonly isChosen: boolean;
}

/** Something the operator can do now. A `key` of one letter does it from the board. */
export interface ToolAct {
  readonly name: string;
  readonly words: string;
  readonly key?: string;
}

/** What a tool shows while it is in a state. Plain data: the board draws it with our own marks. */
export interface ToolView {
  /** What to do next, as a sentence in the entry line's row. */
  readonly prompt: string;
  /** What the entry line takes now; null when it takes nothing. */
  readonly entry: { readonly label: string; readonly example: string } | null;
  readonly lines: readonly ToolLine[];
  readonly marks: readonly ToolMark[];
  readonly handles: readonly ToolHandle[];
  readonly acts: readonly ToolAct[];
  readonly guides: Guides;
  /** What would be done if it ended here: the board shows the document with it. */
  readonly preview: Command | null;
  /** What the hand does: picks places; holds something that can be dragged; or moves the sheet. */
  readonly hand: 'pick' | 'hold' | 'sheet';
  /** Whether the arrow keys move what is chosen; else they move the pointer or the sheet. */
  readonly takesNudges: boolean;
}

export interface Tool<State> {
  readonly name: ToolName;
  readonly start: (context: ToolContext) => State;
  readonly next: (state: State, event: ToolEvent, context: ToolContext) => ToolStep<State>;
  readonly view: (state: State, context: ToolContext) => ToolView;
}

export const toolNames = [
  'edit',
  'dimension',
  'trace',
  'opening',
  'blocked',
  'bay',
  'low',
  'station',
  'measure',
  'aisle',
  'width',
] as const;
export type ToolName = (typeof toolNames)[number];
