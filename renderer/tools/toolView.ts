import { noGuides } from './pick.ts';
import type { ToolView } from './tool.ts';

const nothing: ToolView = {
  prompt: '',
  entry: null,
  lines: [],
  marks: [],
  handles: [],
  acts: [],
  guides: noGuides,
  preview: null,
  hand: 'pick',
  takesNudges: false,
};

/** A tool's view from the parts that say something. A line that can have no length says why in the prompt. */
export const toolView = (parts: Partial<ToolView> & { readonly prompt: string }): ToolView => {
  const noLength = parts.lines?.find((line) => line.noLength !== undefined)?.noLength;
  const view = { ...nothing, ...parts };
  return noLength === undefined ? view : { ...view, prompt: `${noLength} ${view.prompt}` };
};
