import type { ProjectId, RunId } from '../../document/ids.ts';
import { migrateDocument } from '../../document/migrateDocument.ts';
import { writeCsvRows } from '../../stock/csvRows.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { AbortSignalLike, Ports, Store } from '../ports.ts';
import { StoreError } from '../ports.ts';
import type { ProjectRow } from '../projectRow.ts';
import type { Projects } from '../projects.ts';
import { utf8 } from '../utf8.ts';
import { type ProjectFacts, projectFactsOf, projectFactsVersion, runLengthMm } from './projectFacts.ts';
import type { ProjectSearch } from './projectSearch.ts';
import type { FacetCount, FoundProject } from './searchPort.ts';
import { searchWords } from './searchWords.ts';

/** A page of what a search found. */
export interface SearchAnswer {
  readonly total: number;
  readonly projects: readonly {
    readonly project: ProjectRow;
    /** Null where the archive keeps none: it is of an older version and can only be read. */
    readonly facts: ProjectFacts | null;
  }[];
  readonly states: readonly FacetCount[];
  readonly clients: readonly FacetCount[];
  /** True where not everything could be looked through; `advice` of the archive's health says why. */
  readonly isPartial: boolean;
}

/** Runs like a given one. */
export interface SimilarRun {
  readonly project: ProjectRow;
  readonly runId: RunId;
  readonly runName: string;
  readonly lengthMm: number;
  /** The largest difference of a straight, in mm. */
  readonly differenceMm: number;
}

const staleAtOnce = 200;

/**
 * Works out the facts of every project that has none or old ones. False where the archive can't be written: then what
 * is stale stays so.
 */
const freshenFacts = async (store: Store, signal: AbortSignalLike | undefined): Promise<boolean> => {
  for (;;) {
    const stale = await store.staleProjects(projectFactsVersion, staleAtOnce);
    if (stale.length === 0) return true;
    if (signal?.aborted) throw new ApiFailure('cancelled', 'The call was cancelled.', '');
    let kept = 0;
    for (const { projectId, revision, document } of stale) {
      const migrated = migrateDocument(document);
      // A document that this program can't read has no facts; the project opens with its own message.
      if (!migrated.ok) continue;
      try {
        await store.putFacts({ projectId, revision, facts: projectFactsOf(migrated.document) });
        kept += 1;
      } catch (error) {
        if (error instanceof StoreError) return false;
        throw error;
      }
    }
    if (kept === 0) return false;
  }
};

/** Without an index only the list can be looked through: names, numbers, clients, sites and states. */
const searchList = async (store: Store, search: ProjectSearch, offset: number, most: number) => {
  const words = searchWords(search.words ?? '');
  const found = (await store.listProjects()).filter(({ name, jobNumber, client, site, state }) => {
    const own = searchWords([name, jobNumber, client, site].join('\n'));
    return (
      words.every((word) => own.some((one) => one.startsWith(word))) &&
      (!search.states?.length || search.states.some((wanted) => wanted === state)) &&
      (search.client === undefined || search.client === client)
    );
  });
  return {
    total: found.length,
    projects: found.slice(offset, offset + most).map((project) => ({ project, facts: null })),
    states: [],
    clients: [],
    isPartial: true,
  };
};

/** Straights that differ by no more than this part, and never less than this length, are alike. */
const alike = { part: 0.05, leastMm: 150, turnDeg: 5 } as const;

const toleranceMm = (straightMm: number): number => Math.max(alike.leastMm, straightMm * alike.part);

/** So many runs are looked at in one go; the likest are among the first. */
const candidatesAtOnce = 50;

const differenceOf = (
  one: Pick<ProjectFacts['runs'][number], 'straightsMm' | 'turnsDeg'>,
  other: Pick<ProjectFacts['runs'][number], 'straightsMm' | 'turnsDeg'>,
): number | null => {
  if (one.straightsMm.length !== other.straightsMm.length) return null;
  let largest = 0;
  for (const [index, length] of one.straightsMm.entries()) {
    const difference = Math.abs(length - (other.straightsMm[index] ?? 0));
    if (difference > toleranceMm(length)) return null;
    largest = Math.max(largest, difference);
  }
  const isTurnedAlike = one.turnsDeg.every(
    (turn, index) => Math.abs(turn - (other.turnsDeg[index] ?? 0)) <= alike.turnDeg,
  );
  return isTurnedAlike ? largest : null;
};

/**
 * How far two runs of one shape differ, in mm; null where they are of different shapes. A turn's sign goes by where the
 * front is, so that a run, its mirror image, and either of them walked from the other end count as alike.
 */
export const runDifferenceMm: typeof differenceOf = (one, other) => {
  const backwards = { straightsMm: [...one.straightsMm].reverse(), turnsDeg: [...one.turnsDeg].reverse() };
  const differences = [differenceOf(one, other), differenceOf(backwards, other)].filter(
    (difference) => difference !== null,
  );
  return differences.length === 0 ? null : Math.min(...differences);
};

const pageMost = 200;
const formulaStart = /^[=+\-@\t\r]/;

/** A spreadsheet runs a cell that starts like a formula; a quote mark before it keeps it text. */
const cell = (value: string | number | null): string => {
  if (typeof value === 'string') return formulaStart.test(value) ? `'${value}` : value;
  return value === null ? '' : String(value);
};

const headings = [
  'Project',
  'Job number',
  'Client',
  'Site',
  'State',
  'Tender date',
  'Runs',
  'Run lengths (mm)',
  'Whole length (mm)',
  'Pieces of kept fits',
  'Stations',
  'Plan files',
  'Open questions',
  'Keep until',
  'Changed (UTC)',
  'Id',
];

const listRow = ({ project, facts }: FoundProject): readonly string[] => {
  const lengths = facts.runs.flatMap((run) => runLengthMm(run) ?? []);
  const pieces = facts.runs.flatMap((run) => run.pieces ?? []);
  const sum = (values: readonly number[]) =>
    values.length === 0 ? null : values.reduce((total, value) => total + value, 0);
  return [
    project.name,
    project.jobNumber,
    project.client,
    project.site,
    project.state,
    project.tenderDate,
    project.runs,
    lengths.join(' '),
    sum(lengths),
    sum(pieces),
    facts.stations.join(' '),
    facts.plans.map(({ fileName }) => fileName).join('; '),
    facts.openQuestions,
    facts.retainUntil,
    project.modifiedAt,
    project.projectId,
  ].map(cell);
};

/** Use cases of finding projects again. */
export const searchUseCasesOver = (ports: Pick<Ports, 'store' | 'now'>, projects: Projects) => {
  const { store } = ports;

  const search = async (
    wanted: ProjectSearch,
    offset: number,
    most: number,
    signal?: AbortSignalLike,
  ): Promise<SearchAnswer> => {
    const isFresh = await freshenFacts(store, signal);
    const { words = '', ...rest } = wanted;
    const found = await store.searchProjects({ ...rest, words: searchWords(words), offset, most });
    return found ? { ...found, isPartial: !isFresh } : searchList(store, wanted, offset, most);
  };

  return {
    search,

    /** Every project found as CSV, in the order of the search. A byte order mark tells spreadsheets that it is UTF-8. */
    async list(wanted: ProjectSearch, signal?: AbortSignalLike) {
      const rows: (readonly string[])[] = [];
      for (let offset = 0; ; offset += pageMost) {
        const { total, projects: page } = await search(wanted, offset, pageMost, signal);
        for (const { project, facts } of page) {
          if (!facts)
            throw new ApiFailure(
              'archive-older',
              'This archive is of an older version and can’t be written, so that lengths and stations are not at hand. Give this account write access first.',
              'search',
            );
          rows.push(listRow({ project, facts }));
        }
        if (page.length === 0 || offset + pageMost >= total) break;
      }
      return {
        fileName: `projects-${ports.now().slice(0, 10)}.csv`,
        mediaType: 'text/csv',
        bytes: utf8(`\uFEFF${writeCsvRows([headings, ...rows])}`),
      };
    },

    /** Runs of other projects that are like one of this, the likest first. */
    async similarRuns(
      projectId: ProjectId,
      runId: RunId,
      most: number,
      signal?: AbortSignalLike,
    ): Promise<readonly SimilarRun[]> {
      const { document } = await projects.open(projectId);
      const run = projectFactsOf(document).runs.find((one) => one.runId === runId);
      const lengthMm = run ? runLengthMm(run) : null;
      if (!run || lengthMm === null)
        throw new ApiFailure(
          'run-without-length',
          'Set the scale first: the run has no length yet.',
          'runId',
        );
      await freshenFacts(store, signal);
      // Where each straight differs by no more than its share, so does the sum of them by no more than theirs.
      const within = run.straightsMm.reduce((sum, straight) => sum + toleranceMm(straight), 0);
      const straights = run.straightsMm.length;
      const sought = { straights, fromMm: lengthMm - within, toMm: lengthMm + within, nearMm: lengthMm };
      let similar: readonly SimilarRun[] = [];
      for (let offset = 0; ; offset += candidatesAtOnce) {
        if (signal?.aborted) throw new ApiFailure('cancelled', 'The call was cancelled.', '');
        const page = await store.runCandidates({ ...sought, offset, most: candidatesAtOnce });
        if (!page)
          throw new ApiFailure(
            'archive-older',
            'This archive is of an older version and can’t be written, so that its runs can’t be compared. Give this account write access first.',
            'projectId',
          );
        let nearestMm = 0;
        const alikeInPage = page.flatMap(({ project, facts, runNumber }): readonly SimilarRun[] => {
          const other = facts.runs[runNumber];
          const otherMm = other ? runLengthMm(other) : null;
          if (!other || otherMm === null) return [];
          nearestMm = Math.abs(otherMm - lengthMm);
          const differenceMm = runDifferenceMm(run, other);
          if (project.projectId === projectId || differenceMm === null) return [];
          return [{ project, runId: other.runId, runName: other.name, lengthMm: otherMm, differenceMm }];
        });
        similar = [...similar, ...alikeInPage]
          .sort((one, other) => one.differenceMm - other.differenceMm)
          .slice(0, most);
        // Those to come differ more in sum, and so in their largest difference by that part of it at least.
        const isSettled =
          similar.length === most && nearestMm / straights > (similar.at(-1)?.differenceMm ?? 0);
        if (page.length === 0 || isSettled) return similar;
      }
    },
  };
};
