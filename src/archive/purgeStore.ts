import { StoreError } from '../app/ports.ts';
import type { PurgedProject, PurgePreview, PurgeStore } from '../app/purge/purgePort.ts';
import type { ProjectFacts } from '../app/search/projectFacts.ts';
import { type ArchiveConnection, BrokenContentError } from './archiveConnection.ts';
import { backupsDone } from './backUpArchive.ts';
import { noteCopiesDue, removeDueCopies } from './dueCopies.ts';
import { eraseDeleted, noteErasureDue } from './eraseDeleted.ts';
import { findHoldingCopies } from './holdingCopies.ts';
import { type ProjectRecord, rowOf } from './projectRecord.ts';
import { countsOf, purgeProject, purgeSubject } from './purgeProject.ts';
import { isRowIntact } from './talliedTables.ts';

/** The statement that finds what is past its retention; tests assert how SQLite plans it. */
export const pastRetentionQuery = `
  SELECT projects.*, retain_until FROM search_rows JOIN projects USING (project_key)
  WHERE retain_until <> '' AND retain_until < ? ORDER BY retain_until, change_number`;

const erasedLater =
  'What was deleted is still in the bytes of the archive’s files: another window or program reads the archive. Close it and open Footrail again; the rest is then done by itself.';

/** The part of the store that lets personal data go. */
export const createPurgeStore = (
  archive: ArchiveConnection,
  folder: string,
  now: () => string,
): PurgeStore => {
  const { database } = archive;
  const hasTables = (): boolean =>
    database.prepare(`SELECT 1 FROM sqlite_schema WHERE name = 'purged_issues'`).get() !== undefined;

  const find = (projectId: string): ProjectRecord | null => {
    const project = database
      .prepare<[string], ProjectRecord>('SELECT * FROM projects WHERE project_id = ?')
      .get(projectId);
    if (!project) return null;
    if (!isRowIntact('projects', project))
      throw new BrokenContentError(`the entry of the project "${project.name}" is not as it was written`);
    return project;
  };

  const preview = (projectId: string): Omit<PurgePreview, 'copies'> | null => {
    const project = hasTables() ? find(projectId) : null;
    const subject = project && purgeSubject(database, project, now());
    if (!project || !subject) return null;
    const { count } = database
      .prepare<[string, number], { count: number }>(
        `SELECT count(*) AS count FROM projects WHERE client <> '' AND client = ? AND project_key <> ?`,
      )
      .get(project.client, project.project_key)!;
    return {
      project: rowOf(project),
      retainUntil: subject.document.job?.retainUntil ?? '',
      isRemoved: project.removed_at !== null,
      goes: {
        changes: subject.events.length,
        people: [...new Set(subject.events.flatMap(({ made_by: by }) => by ?? []))].sort(),
        issues: subject.issues.length,
        plans: subject.plans.map(({ plan, sharedBy }) => ({
          fileName: plan.file_name,
          isShared: sharedBy !== null,
        })),
        savedSearches: subject.savedSearches.map(({ name }) => name),
      },
      stays: countsOf(project, subject.facts),
      sameClient: count,
    };
  };

  const erase = (): { readonly isErased: boolean; readonly advice: string } => {
    try {
      const isErased = eraseDeleted(archive);
      return { isErased, advice: isErased ? '' : erasedLater };
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      const { code, message } = error;
      if (code === 'archive-busy') return { isErased: false, advice: erasedLater };
      if (code !== 'archive-full') throw error;
      return {
        isErased: false,
        advice: `${message} The project is deleted, but its bytes are still in the archive’s files: writing them anew takes twice their size for a moment. Make room and open Footrail again; the rest is then done by itself.`,
      };
    }
  };

  /** Answers what hindered it, or nothing. The purge itself is done by then, and the rest is tried again at opening. */
  const takeCopiesAway = async (at: string): Promise<string> => {
    try {
      await removeDueCopies(archive, folder, at);
      return '';
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      return `${error.message} The project is purged, but the copies that were to go with it are still there. Open Footrail again when that is mended; they are then taken away by themselves.`;
    }
  };

  return {
    projectsPastRetention: async (day) =>
      archive.read(() => {
        if (!hasTables()) return [];
        return database
          .prepare<[string], ProjectRecord & { retain_until: string }>(pastRetentionQuery)
          .all(day)
          .map(({ retain_until: retainUntil, ...project }) => ({
            project: rowOf(project),
            retainUntil,
            isRemoved: project.removed_at !== null,
          }));
      }),

    previewPurge: async (projectId) => {
      const found = archive.read(() => preview(projectId));
      return found && { ...found, copies: findHoldingCopies(folder, projectId) };
    },

    purgeProject: async ({ projectId, at, withCopies }) => {
      const holding = () => (withCopies ? findHoldingCopies(folder, projectId).map(({ name }) => name) : []);
      const due = holding();
      const counts = archive.write(() => {
        const project = find(projectId);
        const subject = project && purgeSubject(database, project, now());
        if (!project || !subject) return null;
        noteErasureDue(archive, at);
        if (withCopies) noteCopiesDue(archive, due);
        return purgeProject(database, project, subject, at);
      });
      if (!counts) return null;
      // A backup of our own that is under way reads the archive, and may hold the project when it is done.
      await backupsDone(archive);
      const late = holding().filter((name) => !due.includes(name));
      if (late.length > 0) archive.write(() => noteCopiesDue(archive, late));
      const erased = erase();
      const advice = erased.isErased ? await takeCopiesAway(at) : erased.advice;
      const copiesLeft = findHoldingCopies(folder, projectId);
      const left = copiesLeft.map(({ name }) => name);
      return {
        counts,
        isErased: erased.isErased,
        advice,
        copiesRemoved: [...due, ...late].filter((name) => !left.includes(name)),
        copiesLeft,
      };
    },

    purgedProjects: async () =>
      archive.read(() =>
        database
          .prepare<[], ProjectRecord & { facts: string | null }>(
            `SELECT projects.*, facts FROM projects LEFT JOIN search_facts USING (project_key)
             WHERE removed_at IS NOT NULL AND project_key NOT IN (SELECT project_key FROM documents)
             ORDER BY change_number`,
          )
          .all()
          .map(
            ({ facts, ...project }): PurgedProject => ({
              ...countsOf(project, facts === null ? null : (JSON.parse(facts) as ProjectFacts)),
              purgedOn: project.removed_at?.slice(0, 10) ?? '',
            }),
          ),
      ),
  };
};
