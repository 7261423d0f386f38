import type { ProjectId } from '../../document/ids.ts';
import type { ProjectRow } from '../projectRow.ts';
import type { ProjectFacts } from './projectFacts.ts';
import type { ProjectSearch } from './projectSearch.ts';

/** What the app needs of a store to find projects again. Part of the store's port. */

export interface FoundProject {
  readonly project: ProjectRow;
  readonly facts: ProjectFacts;
}

/** How many of the projects found have a value; a facet counts as if it were not itself among the wishes. */
export interface FacetCount {
  readonly value: string;
  readonly count: number;
}

export interface FoundPage {
  /** How many there are in all, of which `projects` shows some. */
  readonly total: number;
  readonly projects: readonly FoundProject[];
  readonly states: readonly FacetCount[];
  /** The commonest first, at most 20. */
  readonly clients: readonly FacetCount[];
}

/** The store's part of a search: words are folded, one page is asked for. */
export interface StoreSearch extends Omit<ProjectSearch, 'words'> {
  readonly words: readonly string[];
  readonly offset: number;
  readonly most: number;
}

export interface SavedSearch {
  readonly name: string;
  readonly search: ProjectSearch;
}

/** A run that may be like another: of as many straights, and about as long as a whole. */
export interface RunCandidate extends FoundProject {
  /** Its place among `facts.runs`. */
  readonly runNumber: number;
}

/** What runs are looked through for: so many straights, and a whole front between two lengths. */
export interface SoughtRuns {
  readonly straights: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** The nearest to this length come first. */
  readonly nearMm: number;
  readonly offset: number;
  readonly most: number;
}

/** A project whose facts are missing or out of date. */
export interface StaleProject {
  readonly projectId: ProjectId;
  readonly revision: number;
  /** As stored; the app migrates it. */
  readonly document: unknown;
}

export interface SearchStore {
  /** Null where the archive is of a version that keeps nothing to search in and can't be brought up to date. */
  searchProjects(search: StoreSearch): Promise<FoundPage | null>;
  /** One page of runs. Null where the archive is of a version that does not know them. */
  runCandidates(sought: SoughtRuns): Promise<readonly RunCandidate[] | null>;
  /** Projects whose facts must be worked out (anew) before a search is whole. */
  staleProjects(factsVersion: number, most: number): Promise<readonly StaleProject[]>;
  /** Keeps a project's facts; facts of another revision than the project's are passed over. */
  putFacts(facts: {
    readonly projectId: ProjectId;
    readonly revision: number;
    readonly facts: ProjectFacts;
  }): Promise<void>;
  /**
   * Keeps the folded words of a plan's page; projects with that plan are found by them from then on.
   * Of a plan that neither the archive nor a project has (any more) nothing is kept.
   */
  putPlanWords(plan: {
    readonly sha256: string;
    readonly page: number;
    readonly words: readonly string[];
  }): Promise<void>;
  listSavedSearches(): Promise<readonly SavedSearch[]>;
  /** Keeps a search under its name; another of that name gives way. */
  saveSearch(saved: SavedSearch, at: string): Promise<void>;
  removeSavedSearch(name: string): Promise<boolean>;
}

/** How the archive is, and what it could be restored from. */
export interface StoreHealth {
  readonly state: 'sound' | 'read-only' | 'damaged';
  readonly problems: readonly string[];
  /** What to do; empty when sound. */
  readonly advice: string;
  readonly notices: readonly string[];
  /** Where the archive is kept. */
  readonly place: string;
  /** The newest backups first. `isGood` is null where it was not looked at, which is done only when it matters. */
  readonly backups: readonly {
    readonly name: string;
    readonly at: string;
    readonly byteLength: number;
    readonly isGood: boolean | null;
  }[];
}
