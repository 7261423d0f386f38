import type { Command } from './command.ts';

const labels: Readonly<Record<Exclude<Command['type'], 'together'>, string>> = {
  'change-job': 'Change the job’s particulars',
  'choose-stock-range': 'Choose a stock range',
  'add-sheet': 'Add a sheet',
  'change-sheet': 'Change a sheet',
  'remove-sheet': 'Remove a sheet',
  'accept-scale': 'Set the scale',
  'add-reference': 'Add a known dimension',
  'change-reference': 'Change a known dimension',
  'remove-reference': 'Remove a known dimension',
  'add-run': 'Trace a run',
  'change-run': 'Change a run',
  'remove-run': 'Remove a run',
  'order-runs': 'Order the runs',
  'insert-vertex': 'Insert a point',
  'move-vertex': 'Move a point',
  'move-vertices': 'Move points',
  'remove-vertex': 'Remove a point',
  'pin-corner': 'Choose how a corner is made',
  'add-zone': 'Mark an opening or a blocked zone',
  'change-zone': 'Change an opening or a blocked zone',
  'remove-zone': 'Remove an opening or a blocked zone',
  'want-station': 'Want a station',
  'change-station': 'Change a wanted station',
  'remove-station': 'Remove a wanted station',
  'keep-fit': 'Keep a fit',
  'release-fit': 'Release a fit',
  'add-way-in': 'Describe a way in',
  'name-way-in': 'Name a way in',
  'remove-way-in': 'Remove a way in',
  'choose-way-in': 'Choose the way in',
  'add-obstacle': 'Add an obstacle',
  'change-obstacle': 'Change an obstacle',
  'move-obstacle': 'Move an obstacle',
  'remove-obstacle': 'Remove an obstacle',
  'limit-runs': 'Limit runs to what passes',
  'describe-vehicle': 'Describe the vehicle',
};

/** What undo and redo call a command, in plain words. */
export const commandLabel = (command: Command): string =>
  command.type === 'together' ? command.label : labels[command.type];
