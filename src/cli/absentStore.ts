import { type Store, StoreError } from '../app/ports.ts';

const refuse = async (): Promise<never> => {
  throw new StoreError('no-archive', 'This command works without an archive.');
};

/** The store of commands that need no archive: nothing is in it, and nothing can be put into it. */
export const absentStore: Store = {
  listProjects: refuse,
  createProject: refuse,
  loadProject: refuse,
  appendEvent: refuse,
  removeProject: refuse,
  putPlan: refuse,
  getPlan: refuse,
  putReading: refuse,
  getReading: refuse,
  listStockRanges: refuse,
  putStockRange: refuse,
  listEvents: refuse,
  searchProjects: refuse,
  runCandidates: refuse,
  staleProjects: refuse,
  putFacts: refuse,
  putPlanWords: refuse,
  listSavedSearches: refuse,
  saveSearch: refuse,
  removeSavedSearch: refuse,
  listIssues: refuse,
  issueInputs: refuse,
  issuedBytes: refuse,
  addIssue: refuse,
  keepBroughtIssues: refuse,
  projectsPastRetention: refuse,
  previewPurge: refuse,
  purgeProject: refuse,
  purgedProjects: refuse,
  health: refuse,
};
