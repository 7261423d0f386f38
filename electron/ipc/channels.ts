/** The names under which main process and preload talk. There are no others. */
export const channels = {
  /** Page to main, answered: `{callId, method, input}`. */
  call: 'footrail:call',
  /** Page to main: `{callId}`. */
  cancel: 'footrail:cancel',
  /** Main to page: `{callId, done, of}`. */
  progress: 'footrail:progress',
  /** Page to main, answered: nothing. */
  pickPlan: 'footrail:pick-plan',
  /** Page to main, answered: `{fileName, bytes}`. */
  saveFile: 'footrail:save-file',
  /** Page to main: the menu choices that it can take now. */
  menuOffers: 'footrail:menu-offers',
  /** Main to page: a menu choice. */
  menuChoice: 'footrail:menu-choice',
} as const;

/** How far a call is, as main tells the page. */
export interface ProgressMessage {
  readonly callId: number;
  readonly done: number;
  readonly of: number;
}
