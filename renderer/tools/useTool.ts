import { useCallback, useMemo, useRef, useState } from 'react';
import type { Command } from '../../src/document/command.ts';
import type { RunId } from '../../src/document/ids.ts';
import type { Tool, ToolContext, ToolEvent, ToolView } from './tool.ts';

/** A tool with its state, whatever the state’s type: the board needs only to send events and show the view. */
export interface RunningTool {
  readonly name: Tool<unknown>['name'];
  readonly view: ToolView;
  /** What the tool last said, such as why something typed was not taken. */
  readonly said: string | null;
  readonly send: (event: ToolEvent) => void;
  /** Takes up a tool from its start. */
  readonly take: <State>(tool: Tool<State>) => void;
}

/**
 * Runs one tool at a time. Commands go to `dispatch`, which answers a refusal in words or null; a tool that is done
 * gives way to `home`.
 */
export const useTool = <Home>(
  home: Tool<Home>,
  context: ToolContext,
  effects: {
    readonly dispatch: (command: Command) => string | null;
    readonly select: (runId: RunId | null) => void;
  },
): RunningTool => {
  // The machine is read and written between renders (several pointer events may come in one frame), hence the ref.
  const machine = useRef<{ tool: Tool<unknown>; state: unknown }>({
    tool: home as Tool<unknown>,
    state: home.start(context),
  });
  const [shown, setShown] = useState({ tool: machine.current.tool, state: machine.current.state });
  const [said, setSaid] = useState<string | null>(null);
  const latest = useRef({ context, effects });
  latest.current = { context, effects };

  const show = useCallback((next: { tool: Tool<unknown>; state: unknown }) => {
    machine.current = next;
    setShown(next);
  }, []);

  const take = useCallback(
    <State>(tool: Tool<State>) => {
      setSaid(null);
      show({ tool: tool as Tool<unknown>, state: tool.start(latest.current.context) });
    },
    [show],
  );

  const send = useCallback(
    (event: ToolEvent) => {
      const { tool, state } = machine.current;
      const step = tool.next(state, event, latest.current.context);
      const refused = step.command ? latest.current.effects.dispatch(step.command) : null;
      if (event.type !== 'pointer-move' || step.say || refused) setSaid(refused ?? step.say ?? null);
      if (!refused && step.select !== undefined) latest.current.effects.select(step.select);
      if (refused) return;
      if (step.done && tool.name !== home.name)
        show({ tool: home as Tool<unknown>, state: home.start(latest.current.context) });
      else if (step.state !== state) show({ tool, state: step.state });
    },
    [home, show],
  );

  const view = useMemo(() => shown.tool.view(shown.state, context), [shown, context]);
  return { name: shown.tool.name, view, said, send, take };
};
