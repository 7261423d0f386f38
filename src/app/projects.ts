import { applyCommand } from '../document/applyCommand.ts';
import type { Command } from '../document/command.ts';
import { doAgain, type History, recordStep, takeBack } from '../document/history.ts';
import type { ProjectId } from '../document/ids.ts';
import { migrateDocument } from '../document/migrateDocument.ts';
import { applyPatch, type Patch, reversePatch } from '../document/patch.ts';
import { emptyDocument, type ProjectDocument, type StockRangeRef } from '../document/projectDocument.ts';
import { ApiFailure } from './apiFailure.ts';
import type { Ports, ProjectEvent } from './ports.ts';
import { projectFactsOf } from './search/projectFacts.ts';

/** A project as the app holds it: at its last accepted event. */
export interface OpenProject {
  readonly projectId: ProjectId;
  readonly revision: number;
  readonly document: ProjectDocument;
  readonly history: History;
}

export interface ChangedProject {
  readonly project: OpenProject;
  readonly patch: Patch;
}

/** How many open projects stay in memory between calls; the store has them all. */
const heldMost = 16;

const conflict = () =>
  new ApiFailure(
    'revision-conflict',
    'This project was changed elsewhere since you opened it. Load it again to see that change, then repeat yours.',
    'revision',
  );

/** Opening and changing projects over the store. Every change is on disk before it is answered. */
export const projectsOver = (ports: Pick<Ports, 'store' | 'now' | 'freshId' | 'who'>) => {
  const held = new Map<ProjectId, OpenProject>();

  const hold = (project: OpenProject): OpenProject => {
    held.delete(project.projectId);
    held.set(project.projectId, project);
    const oldest = held.keys().next();
    if (held.size > heldMost && !oldest.done) held.delete(oldest.value);
    return project;
  };

  const load = async (projectId: ProjectId): Promise<OpenProject> => {
    const stored = await ports.store.loadProject(projectId);
    if (!stored)
      throw new ApiFailure('project-missing', 'There is no such project in this archive.', 'projectId');
    const migrated = migrateDocument(stored.document);
    if (!migrated.ok) throw new ApiFailure(migrated.code, migrated.message, migrated.path);
    return hold({
      projectId,
      revision: stored.revision,
      document: migrated.document,
      history: stored.history,
    });
  };

  const atRevision = async (projectId: ProjectId, revision: number): Promise<OpenProject> => {
    const project = held.get(projectId);
    if (project?.revision === revision) return project;
    const stored = await load(projectId);
    if (stored.revision !== revision) throw conflict();
    return stored;
  };

  const append = async (
    from: OpenProject,
    event: ProjectEvent,
    document: ProjectDocument,
    history: History,
  ): Promise<ChangedProject> => {
    const { projectId } = from;
    const by = ports.who?.();
    const appended = await ports.store.appendEvent({
      projectId,
      expectedRevision: from.revision,
      event: by === undefined ? event : { ...event, by },
      document,
      facts: projectFactsOf(document),
    });
    if (!appended.ok) {
      held.delete(projectId);
      throw conflict();
    }
    return {
      project: hold({ projectId, revision: appended.revision, document, history }),
      patch: event.patch,
    };
  };

  return {
    async create(name: string, stockRange: StockRangeRef): Promise<OpenProject> {
      const projectId = `project-${ports.freshId()}` as ProjectId;
      const document = emptyDocument(name, stockRange);
      await ports.store.createProject({
        projectId,
        document,
        at: ports.now(),
        facts: projectFactsOf(document),
      });
      return load(projectId);
    },

    /** Always as the store has it, so that what another window did is seen. */
    open: load,

    async change(projectId: ProjectId, revision: number, command: Command): Promise<ChangedProject> {
      const project = await atRevision(projectId, revision);
      const applied = applyCommand(project.document, command);
      if (!applied.ok)
        throw new ApiFailure(
          applied.refusal.code,
          applied.refusal.message,
          `command.${applied.refusal.path}`,
        );
      const { patch, label } = applied;
      const event: ProjectEvent = { kind: 'command', label, patch, at: ports.now() };
      return append(project, event, applied.document, recordStep(project.history, { label, patch }));
    },

    async undo(projectId: ProjectId, revision: number): Promise<ChangedProject> {
      const project = await atRevision(projectId, revision);
      const taken = takeBack(project.history);
      if (!taken) throw new ApiFailure('nothing-to-undo', 'There is nothing to undo.', '');
      const patch = reversePatch(taken.step.patch);
      const event: ProjectEvent = { kind: 'undo', label: taken.step.label, patch, at: ports.now() };
      return append(project, event, applyPatch(project.document, patch), taken.history);
    },

    async redo(projectId: ProjectId, revision: number): Promise<ChangedProject> {
      const project = await atRevision(projectId, revision);
      const again = doAgain(project.history);
      if (!again) throw new ApiFailure('nothing-to-redo', 'There is nothing to redo.', '');
      const { patch, label } = again.step;
      const event: ProjectEvent = { kind: 'redo', label, patch, at: ports.now() };
      return append(project, event, applyPatch(project.document, patch), again.history);
    },

    /** Lets go of what is held of a project in memory. */
    forget(projectId: ProjectId): void {
      held.delete(projectId);
    },

    async remove(projectId: ProjectId): Promise<void> {
      held.delete(projectId);
      if (!(await ports.store.removeProject(projectId, ports.now())))
        throw new ApiFailure('project-missing', 'There is no such project in this archive.', 'projectId');
    },
  };
};

export type Projects = ReturnType<typeof projectsOver>;
