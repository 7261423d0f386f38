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

/** A tool's view from the parts that say something. */
export const toolView = (parts: Partial<ToolView> & { readonly prompt: string }): ToolView => ({
  ...nothing,
  ...parts,
});
