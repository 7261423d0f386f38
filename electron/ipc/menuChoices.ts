import type { MenuChoice } from '../../src/app/desktopBridge.ts';

/** Each choice in the words of the menu; the compiler sees that none is missing. */
export const menuWords: Readonly<Record<MenuChoice, string>> = {
  'show-projects': 'Projects',
  'add-plan': 'Add a plan…',
  'save-schedule': 'Save the schedule…',
  'save-plan': 'Save the plan with its runs…',
  undo: 'Undo',
  redo: 'Redo',
  'whole-sheet': 'Whole sheet',
  closer: 'Closer',
  'further-away': 'Further away',
};

export const menuChoices: readonly MenuChoice[] = Object.keys(menuWords) as MenuChoice[];
