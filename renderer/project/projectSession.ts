import type { ApiOutput } from '../../src/app/apiMethods.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { applyPatch } from '../../src/document/patch.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { type ApiClient, CallRefused } from '../api/apiClient.ts';

/** What the window knows of the project it shows. `document` already has commands that are still on their way. */
export interface ProjectState {
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  /** `saved`: every command is on disk. `saving`: some are on their way. `failed`: the last was not accepted. */
  readonly keeping: 'saved' | 'saving' | 'failed';
  readonly trouble: { readonly code: string; readonly message: string } | null;
}

/**
 * One open project. Commands show at once and are then sent one after another; only when the archive has them does
 * the state say `saved`. When one is refused, the project is loaded again as the archive has it.
 */
export interface ProjectSession {
  state(): ProjectState;
  subscribe(listener: () => void): () => void;
  /** Shows and sends a command; answers the refusal, in words, or null. */
  dispatch(command: Command): string | null;
  undo(): void;
  redo(): void;
  dismissTrouble(): void;
  /** Settles when nothing is on its way. */
  settled(): Promise<void>;
}

type Opened = ApiOutput<'open-project'>;

/** The document with one more command; a command that no longer applies will be refused by the archive too. */
const withCommand = (document: ProjectDocument, command: Command): ProjectDocument => {
  const applied = applyCommand(document, command);
  return applied.ok ? applied.document : document;
};

export const openSession = (api: ApiClient, opened: Opened): ProjectSession => {
  let revision = opened.revision;
  /** The document as the archive has it; what is shown is this and the commands still on their way. */
  let confirmed: ProjectDocument = opened.document;
  let pending: readonly Command[] = [];
  let state: ProjectState = {
    projectId: opened.projectId,
    document: opened.document,
    undoLabel: opened.undoLabel,
    redoLabel: opened.redoLabel,
    keeping: 'saved',
    trouble: null,
  };
  const listeners = new Set<() => void>();
  let queue: Promise<void> = Promise.resolve();
  let underWay = 0;
  /** Counts reloads: what was queued before one was drawn up on a document that is gone. */
  let generation = 0;

  const set = (changes: Partial<ProjectState>) => {
    state = { ...state, ...changes };
    for (const listener of listeners) listener();
  };

  const reload = async (trouble: ProjectState['trouble']) => {
    generation += 1;
    const fresh = await api.call('open-project', { projectId: state.projectId });
    revision = fresh.revision;
    confirmed = fresh.document;
    pending = [];
    set({
      document: fresh.document,
      undoLabel: fresh.undoLabel,
      redoLabel: fresh.redoLabel,
      keeping: 'failed',
      trouble,
    });
  };

  const troubleOf = (thrown: unknown) =>
    thrown instanceof CallRefused
      ? { code: thrown.code, message: thrown.message }
      : { code: 'defect', message: thrown instanceof Error ? thrown.message : String(thrown) };

  const send = (act: () => Promise<void>) => {
    underWay += 1;
    const drawnUp = generation;
    set({ keeping: 'saving' });
    queue = queue.then(async () => {
      try {
        if (drawnUp === generation) await act();
      } catch (thrown) {
        try {
          await reload(troubleOf(thrown));
        } catch {
          set({ keeping: 'failed', trouble: troubleOf(thrown) });
        }
      } finally {
        underWay -= 1;
        if (underWay === 0 && state.keeping === 'saving') set({ keeping: 'saved' });
      }
    });
  };

  const step = (method: 'undo' | 'redo') =>
    send(async () => {
      const changed = await api.call(method, { projectId: state.projectId, revision });
      revision = changed.revision;
      confirmed = applyPatch(confirmed, changed.patch);
      set({
        document: pending.reduce(withCommand, confirmed),
        undoLabel: changed.undoLabel,
        redoLabel: changed.redoLabel,
      });
    });

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispatch(command) {
      const applied = applyCommand(state.document, command);
      if (!applied.ok) return applied.refusal.message;
      pending = [...pending, command];
      set({ document: applied.document, undoLabel: applied.label, redoLabel: null, trouble: null });
      send(async () => {
        const changed = await api.call('apply-command', { projectId: state.projectId, revision, command });
        revision = changed.revision;
        confirmed = applyPatch(confirmed, changed.patch);
        pending = pending.slice(1);
      });
      return null;
    },
    undo: () => {
      if (state.undoLabel !== null) step('undo');
    },
    redo: () => {
      if (state.redoLabel !== null) step('redo');
    },
    dismissTrouble: () => set({ trouble: null, keeping: underWay > 0 ? 'saving' : 'saved' }),
    settled: () => queue,
  };
};
