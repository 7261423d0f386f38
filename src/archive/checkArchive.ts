import { applyPatch, type Patch, reversePatch } from '../document/patch.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import type { ArchiveConnection } from './archiveConnection.ts';
import { collectProblems, inspectArchive, runSqliteCheck } from './inspectArchive.ts';
import { checkIssues } from './issueStore.ts';
import { createPlanStore } from './planStore.ts';
import { createProjectStore } from './projectStore.ts';
import { createSearchStore, searchProblems } from './searchStore.ts';
import { isWordIndexWhole } from './wordIndex.ts';

export interface ArchiveCheck {
  readonly problems: readonly string[];
  readonly projects: number;
  readonly events: number;
  readonly plans: number;
  readonly issues: number;
  readonly byteLength: number;
}

const countOf = (archive: ArchiveConnection, table: 'projects' | 'events' | 'plans'): number =>
  archive.read(
    () =>
      archive.database.prepare<[], { count: number }>(`SELECT count(*) AS count FROM ${table}`).get()
        ?.count ?? 0,
  );

/** Runs a reading of the store; its refusal is a problem found. */
const problemOf = async (read: () => Promise<unknown>): Promise<readonly string[]> => {
  try {
    await read();
    return [];
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    return [error.message];
  }
};

/**
 * Takes a project back to its beginning by its events and forward again: the document must come out as it is kept,
 * byte for byte.
 */
const replayProblems = (archive: ArchiveConnection, projectId: string): readonly string[] =>
  archive.read(() => {
    const document = archive.database
      .prepare<[string], { document: string }>(
        'SELECT document FROM documents JOIN projects USING (project_key) WHERE project_id = ?',
      )
      .get(projectId)?.document;
    const patches = archive.database
      .prepare<[string], { patch: string }>(
        'SELECT patch FROM events JOIN projects USING (project_key) WHERE project_id = ? ORDER BY events.revision',
      )
      .all(projectId)
      .map(({ patch }) => JSON.parse(patch) as Patch);
    if (document === undefined) return [`the document of ${projectId} is missing`];
    const kept = JSON.parse(document) as ProjectDocument;
    const first = patches.reduceRight((state, patch) => applyPatch(state, reversePatch(patch)), kept);
    const again = patches.reduce((state, patch) => applyPatch(state, patch), first);
    const sorted = (value: unknown): string =>
      JSON.stringify(value, (_, entry: unknown) =>
        typeof entry === 'object' && entry !== null && !Array.isArray(entry)
          ? Object.fromEntries(Object.entries(entry).sort(([one], [other]) => (one < other ? -1 : 1)))
          : entry,
      );
    return sorted(again) === sorted(kept) ? [] : [`the changes of ${projectId} do not lead to its document`];
  });

/** An index that is not as it should be is made anew where that can be; what is wrong after that is a problem. */
const wordIndexProblems = (archive: ArchiveConnection): readonly string[] => {
  const found = archive.read(() => isWordIndexWhole(archive.database)) ? searchProblems(archive) : ['broken'];
  if (found.length === 0 || archive.readOnlyBecause) return found;
  archive.renewWordIndex();
  return searchProblems(archive);
};

/**
 * Reads everything: SQLite's whole check, every tallied row, every project with its chain of changes replayed, every
 * plan against its SHA-256, every reading and stock range. Takes as long as reading the file does.
 */
export const checkArchive = async (archive: ArchiveConnection): Promise<ArchiveCheck> => {
  const problems: string[] = [
    ...archive.problems(),
    ...archive.read(() => inspectArchive(archive.database)),
    ...archive.read(() => collectProblems(() => runSqliteCheck(archive.database, 'integrity_check'))),
  ];
  const counts = { projects: 0, events: 0, plans: 0, issues: 0 };
  if (problems.length === 0) {
    const projects = createProjectStore(archive);
    const plans = createPlanStore(archive);
    for (const table of ['projects', 'events', 'plans'] as const) counts[table] = countOf(archive, table);
    for (const { projectId } of await projects.listProjects()) {
      const found = await problemOf(() => projects.loadProject(projectId));
      problems.push(...found, ...(found.length === 0 ? replayProblems(archive, projectId) : []));
    }
    const kept = archive.read(() =>
      archive.database.prepare<[], { sha256: string }>('SELECT sha256 FROM plans').all(),
    );
    for (const { sha256 } of kept) problems.push(...(await problemOf(() => plans.getPlan(sha256))));
    problems.push(...(await problemOf(() => plans.listStockRanges())));
    const issued = checkIssues(archive);
    counts.issues = issued.issues;
    problems.push(...issued.problems);
    // An archive of an older version that can't be written has nothing to search in.
    if (archive.database.prepare(`SELECT 1 FROM sqlite_schema WHERE name = 'search_rows'`).get()) {
      problems.push(...wordIndexProblems(archive));
      problems.push(...(await problemOf(() => createSearchStore(archive).listSavedSearches())));
    }
    const readings = archive.read(() =>
      archive.database
        .prepare<[], { sha256: string; page: number; part: string }>(
          'SELECT sha256, page, part FROM readings',
        )
        .all(),
    );
    for (const key of readings)
      problems.push(...(await problemOf(() => plans.getReading({ ...key, readerVersion: '' }))));
  }
  const { byteLength } = archive.read(() => ({
    byteLength:
      (archive.database.pragma('page_count', { simple: true }) as number) *
      (archive.database.pragma('page_size', { simple: true }) as number),
  }));
  return { problems: [...new Set(problems)], ...counts, byteLength };
};
