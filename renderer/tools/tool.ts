import type { Command } from '../../src/document/command.ts';
import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { SheetScale } from '../../src/measure/tracedRun.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';

/**
 * A tool is a small state machine without side effects: events go in, the next state and commands come out. The board
 * turns pointer, key and entry-line input into events; tests write the same events as sentences.
 */

/** A picked place: where it is, how sure (standard uncertainty, k = 1), and what it was caught by, in a word. */
export interface Pick {
  readonly at: PaperPoint;
  readonly uncertaintyPt: number;
  /** The relation that a snap used, such as `end`, `crossing`, `middle`, `on a line`, `square to`; null when free. */
  readonly relation: string | null;
}

export type ToolEvent =
  | { readonly type: 'pointer-move'; readonly pick: Pick }
  | { readonly type: 'pointer-down'; readonly pick: Pick; readonly shift: boolean }
  | { readonly type: 'pointer-up'; readonly pick: Pick; readonly shift: boolean }
  /** Text sent from the entry line. */
  | { readonly type: 'entry'; readonly text: string }
  /** Return with an empty entry line, or a double click: finish what is being done. */
  | { readonly type: 'confirm' }
  /** Back out one step. */
  | { readonly type: 'escape' }
  /** Delete or Backspace with an empty entry line. */
  | { readonly type: 'delete' }
  /** An act that the tool offers by name in the entry line's row. */
  | { readonly type: 'act'; readonly name: string };

/** What a tool may look at. All of it is read-only. */
export interface ToolContext {
  readonly document: ProjectDocument;
  readonly sheetId: SheetId;
  /** Null until the sheet has a scale. */
  readonly scale: SheetScale | null;
  readonly userUnit: number;
  readonly unit: DisplayUnit;
  readonly selectedRunId: RunId | null;
  readonly freshId: () => string;
  /** Everything of a new run but its ids, name and points. */
  readonly runDefaults: Omit<Run, 'id' | 'sheetId' | 'name' | 'frontLine' | 'pickUncertaintyPt'>;
  /** How close, in paper units, counts as touching at the present zoom. */
  readonly touchPt: number;
}

export interface ToolStep<State> {
  readonly state: State;
  readonly command?: Command;
  /** Selects a run (or none). */
  readonly select?: RunId | null;
  /** Something to tell the operator, such as why a typed length was not taken. */
  readonly say?: string;
  /** The tool is done; the board goes back to the tool for selecting and editing. */
  readonly done?: boolean;
}

/** What a tool shows while it is in a state. Plain data: the board draws it with our own marks. */
export interface ToolView {
  /** What to do next, as a sentence in the entry line's row. */
  readonly prompt: string;
  /** What the entry line takes now; null when it takes nothing. */
  readonly entry: { readonly label: string; readonly example: string } | null;
  /** Lines being drawn: `sure` ones are placed, others follow the pointer. With a length to show, in mm, if known. */
  readonly lines: readonly {
    readonly from: PaperPoint;
    readonly to: PaperPoint;
    readonly sure: boolean;
    readonly lengthMm?: number;
    readonly plusMinusMm?: number;
  }[];
  /** Places marked with a short stroke and, where it says something, a word. */
  readonly marks: readonly { readonly at: PaperPoint; readonly word: string | null }[];
  /** Acts offered by name, e.g. `{name: 'finish', words: 'Finish the run'}`. */
  readonly acts: readonly { readonly name: string; readonly words: string; readonly key?: string }[];
  /** The point that snaps may be square to, parallel to or in line with. */
  readonly anchor: PaperPoint | null;
}

export interface Tool<State> {
  readonly name: ToolName;
  readonly start: (context: ToolContext) => State;
  readonly next: (state: State, event: ToolEvent, context: ToolContext) => ToolStep<State>;
  readonly view: (state: State, context: ToolContext) => ToolView;
}

export const toolNames = ['edit', 'dimension', 'trace', 'opening', 'blocked', 'station', 'measure'] as const;
export type ToolName = (typeof toolNames)[number];
