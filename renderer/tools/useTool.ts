import { useMemo, useReducer, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import type { Command } from '../../src/document/command.ts';
import type { RunId } from '../../src/document/ids.ts';
import type { Tool, ToolContext, ToolEvent, ToolView } from './tool.ts';
import { createToolMachine, type ToolMachine } from './toolMachine.ts';

/** A tool with its state, whatever the state’s type: the board needs only to send events and show the view. */
export interface RunningTool {
  readonly name: Tool<unknown>['name'];
  readonly view: ToolView;
  /** The view as it is after the last event, which may not have been rendered yet. */
  readonly viewNow: () => ToolView;
  /** What the tool last said, such as why something typed was not taken. */
  readonly said: string | null;
  readonly send: (event: ToolEvent) => void;
  /** Takes up a tool from its start. */
  readonly take: <State>(tool: Tool<State>) => void;
}

/** Runs one tool at a time in a component; see `createToolMachine`. */
export const useTool = <Home>(
  home: Tool<Home>,
  context: ToolContext,
  effects: {
    readonly dispatch: (command: Command) => string | null;
    readonly select: (runId: RunId | null) => void;
  },
): RunningTool => {
  const [, onChange] = useReducer((count: number) => count + 1, 0);
  // Several pointer events may come in one frame: the machine reads what is latest, not what was rendered last.
  const latest = useRef({ context, effects });
  latest.current = { context, effects };
  const rendered = useRef<ToolView['hand'] | null>(null);
  const [machine] = useState<ToolMachine>(() => {
    const made: ToolMachine = createToolMachine(home, {
      context: () => latest.current.context,
      dispatch: (command) => latest.current.effects.dispatch(command),
      select: (runId) => latest.current.effects.select(runId),
      onChange: () => {
        // A press may follow a move at once, and what it does is settled by what the board was last told.
        if (made.view().hand === rendered.current) onChange();
        else flushSync(onChange);
      },
    });
    return made;
  });
  const { tool, state } = machine.inHand();
  const view = useMemo(() => tool.view(state, context), [tool, state, context]);
  rendered.current = view.hand;
  const { send, take, view: viewNow } = machine;
  return { name: tool.name, view, viewNow, said: machine.said(), send, take };
};
