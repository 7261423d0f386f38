import type { Command } from '../../src/document/command.ts';
import type { RunId } from '../../src/document/ids.ts';
import type { Tool, ToolContext, ToolEvent, ToolView } from './tool.ts';

/** The tool in hand and its state. */
export interface ToolInHand {
  readonly tool: Tool<unknown>;
  readonly state: unknown;
}

/** One tool at a time, running. Holds the only state there is; tools themselves have none. */
export interface ToolMachine {
  inHand(): ToolInHand;
  /** What the tool last said, such as why something typed was not taken. */
  said(): string | null;
  view(): ToolView;
  send(event: ToolEvent): void;
  /** Takes up a tool from its start. */
  take<State>(tool: Tool<State>): void;
}

/** An event that comes by itself says nothing new, so that it does not wipe away what was said. */
const isByTheWay = ({ type }: ToolEvent): boolean =>
  type === 'pointer-move' || type === 'pointer-up' || type === 'nudge-end';

/**
 * Runs one tool at a time. Commands go to `dispatch`, which answers a refusal in words or null; a refused command
 * leaves the tool as it was. A tool that is done gives way to `home`.
 */
export const createToolMachine = <Home>(
  home: Tool<Home>,
  over: {
    readonly context: () => ToolContext;
    readonly dispatch: (command: Command) => string | null;
    readonly select: (runId: RunId | null) => void;
    readonly onChange: () => void;
  },
): ToolMachine => {
  const atHome = (): ToolInHand => ({ tool: home as Tool<unknown>, state: home.start(over.context()) });
  let hand = atHome();
  let words: string | null = null;
  const set = (next: ToolInHand, nextWords: string | null) => {
    if (next.tool === hand.tool && next.state === hand.state && nextWords === words) return;
    hand = next;
    words = nextWords;
    over.onChange();
  };
  return {
    inHand: () => hand,
    said: () => words,
    view: () => hand.tool.view(hand.state, over.context()),
    take(tool) {
      set({ tool: tool as Tool<unknown>, state: tool.start(over.context()) }, null);
    },
    send(event) {
      const { tool, state } = hand;
      const step = tool.next(state, event, over.context());
      const refused = step.command ? over.dispatch(step.command) : null;
      const next = refused ?? step.say ?? (isByTheWay(event) ? words : null);
      if (refused !== null) {
        set(step.ifRefused === undefined ? hand : { tool, state: step.ifRefused }, next);
        return;
      }
      if (step.select !== undefined) over.select(step.select);
      set(step.done ? atHome() : { tool, state: step.state }, next);
    },
  };
};
