import type { ApiOutput } from '../../src/app/apiMethods.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { type Command, commandSchema } from '../../src/document/command.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { applyPatch } from '../../src/document/patch.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { type ApiClient, CallRefused } from '../api/apiClient.ts';
import { type ChangedPart, changedParts, partsChangedByBoth, withFreeRunName } from './changedParts.ts';
import { isSameData } from './isSameData.ts';

/** What the window knows of the project it shows. `document` already has commands that are still on their way. */
export interface ProjectState {
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  /**
   * `saved`: every command is on disk. `saving`: some are on their way. `failed`: the host does not answer and what is
   * unsaved is sent again until it does, or the last command was not accepted.
   */
  readonly keeping: 'saved' | 'saving' | 'failed';
  /** How many steps are not on disk yet. */
  readonly unsaved: number;
  readonly trouble: { readonly code: string; readonly message: string } | null;
  /** Another window changed the same; nothing more is sent until the person has chosen. */
  readonly clash: Clash | null;
}

/** The same parts of a project, changed here and in another window. `document` shows the side that is looked at. */
export interface Clash {
  readonly parts: readonly ChangedPart[];
  readonly mine: ProjectDocument;
  readonly theirs: ProjectDocument;
  readonly showing: ClashSide;
}
export type ClashSide = 'mine' | 'theirs';

/**
 * One open project. Commands show at once and are then sent one after another; only when the archive has them does
 * the state say `saved`. A host that does not answer costs nothing: what is unsaved stays, and is sent again. Where
 * another window changed the project, its change is loaded and the unsaved commands go on top of it; where both changed
 * the same part, the person sees both and chooses first. A command that is refused is taken back, and the sentence says
 * why.
 */
export interface ProjectSession {
  state(): ProjectState;
  subscribe(listener: () => void): () => void;
  /** Shows and sends a command; answers the refusal, in words, or null. */
  dispatch(command: Command): string | null;
  undo(): void;
  redo(): void;
  dismissTrouble(): void;
  /** Shows one side of a clash, deciding nothing. */
  lookAt(side: ClashSide): void;
  /** Ends a clash: the other side's change gives way. Mine comes after theirs, which stays in the history. */
  settleClash(side: ClashSide): void;
  /** Shows the project as the archive has it, where more than a step of this window changed it. */
  refresh(): Promise<void>;
  /** Settles when nothing is on its way: all is saved, or the host does not answer. */
  settled(): Promise<void>;
  /** Sends what is unsaved once more, where the host did not answer. */
  sendAgain(): void;
}

type Opened = ApiOutput<'open-project'>;
type Step = { readonly do: 'command'; readonly command: Command } | { readonly do: 'undo' | 'redo' };

const callsNotCarried = new Set([
  'host-unreachable',
  'shell-unreachable',
  'host-busy',
  'too-many-requests',
  'request-timed-out',
  'no-session',
]);

/** Whether a call did not come through, or the archive could not write: nothing is said against what it carried. */
const isNotCarried = (code: string): boolean => callsNotCarried.has(code) || code.startsWith('archive-');

/** How long to wait before asking a host again that did not answer, in ms. */
const askAgainMs = 2000;

/** Why a command cannot be part of a project, in words. */
const outOfBounds = (
  issue: { readonly path: readonly PropertyKey[]; readonly message: string } | undefined,
) =>
  `That goes beyond what a project can hold (${issue?.path.map(String).join('.') ?? ''}: ${issue?.message ?? 'not valid'}). Nothing was changed.`;

const codeOf = (thrown: unknown): string => (thrown instanceof CallRefused ? thrown.code : 'defect');
const messageOf = (thrown: unknown): string => (thrown instanceof Error ? thrown.message : String(thrown));

const elsewhere = {
  code: 'revision-conflict',
  kept: 'This project was changed in another window. That change is shown here now, and yours is kept with it.',
  lost: 'This project was changed in another window. That change is shown here now; what you did last no longer goes with it and was taken back. Do it again where it is still wanted.',
} as const;

const chooseFirst =
  'Another window changed the same. Choose first which of the two stays; then go on. Nothing was changed.';

/** @param later calls back after so many ms; tests give one of their own */
export const openSession = (
  api: ApiClient,
  opened: Opened,
  later: (act: () => void, ms: number) => void = (act, ms) => void setTimeout(act, ms),
): ProjectSession => {
  const { projectId } = opened;
  let revision = opened.revision;
  /** The document and its labels as the archive has them; what is shown is this and the steps still on their way. */
  let confirmed: ProjectDocument = opened.document;
  let labels = { undoLabel: opened.undoLabel, redoLabel: opened.redoLabel };
  let pending: readonly Step[] = [];
  let isSending = false;
  let queue: Promise<void> = Promise.resolve();
  let state: ProjectState = {
    projectId,
    document: opened.document,
    ...labels,
    keeping: 'saved',
    unsaved: 0,
    trouble: null,
    clash: null,
  };
  const listeners = new Set<() => void>();

  const set = (changes: Partial<ProjectState>) => {
    state = { ...state, ...changes, unsaved: pending.length };
    for (const listener of listeners) listener();
  };

  /** Puts the pending commands on the confirmed document again; those that no longer go there are left out. */
  const rebase = () => {
    let document = confirmed;
    let label: string | null = null;
    let left = 0;
    pending = pending.filter((step) => {
      if (step.do !== 'command') return true;
      const applied = applyCommand(document, step.command);
      if (!applied.ok) {
        left += 1;
        return false;
      }
      document = applied.document;
      label = applied.label;
      return true;
    });
    return { document, left, ...(label === null ? labels : { undoLabel: label, redoLabel: null }) };
  };

  const load = async () => {
    const fresh = await api.call('open-project', { projectId });
    revision = fresh.revision;
    confirmed = fresh.document;
    labels = { undoLabel: fresh.undoLabel, redoLabel: fresh.redoLabel };
  };

  /** Whether the archive already has the step: it was carried out, and only the answer was lost. */
  const isCarriedOut = (step: Step, before: ProjectDocument, revisionBefore: number): boolean => {
    if (step.do !== 'command' || revision !== revisionBefore + 1) return false;
    const applied = applyCommand(before, step.command);
    return applied.ok && isSameData(applied.document, confirmed);
  };

  /** Loads the project as it was changed elsewhere and puts what is unsaved on top. */
  const takeOver = async (step: Step) => {
    const before = confirmed;
    const revisionBefore = revision;
    await load();
    if (isCarriedOut(step, before, revisionBefore)) {
      pending = pending.slice(1);
      const { left: _left, ...shown } = rebase();
      set(shown);
      return;
    }
    // An undo was meant for a step that may no longer be the last one: it is never carried over to another's.
    const hadSteps = pending.some(({ do: what }) => what !== 'command');
    const meant = pending.reduce((document, one) => {
      if (one.do !== 'command') return document;
      const applied = applyCommand(document, one.command);
      return applied.ok ? applied.document : document;
    }, before);
    const renamed = nameAnew();
    const { left, ...shown } = rebase();
    const isLost = left > 0 || hadSteps;
    const parts = partsChangedByBoth(before, meant, confirmed);
    if (parts.length > 0 && pending.length > 0) {
      set({
        ...shown,
        keeping: 'failed',
        trouble: null,
        clash: { parts, mine: shown.document, theirs: confirmed, showing: 'mine' },
      });
      return;
    }
    const message = isLost ? elsewhere.lost : elsewhere.kept;
    set({ ...shown, trouble: { code: elsewhere.code, message: `${message}${renamed}` } });
  };

  /** Leaves of what is unsaved the commands, and gives runs numbers that are free; says which ones it named anew. */
  const nameAnew = (): string => {
    let document = confirmed;
    let words = '';
    pending = pending.flatMap((one): readonly Step[] => {
      if (one.do !== 'command') return [];
      const command = withFreeRunName(one.command, document);
      if (command !== one.command && command.type === 'add-run')
        words += ` The other window has a run of the same number: yours is “${command.run.name}” now.`;
      const applied = applyCommand(document, command);
      if (applied.ok) document = applied.document;
      return [{ do: 'command', command }];
    });
    return words;
  };

  const carryOut = async (step: Step) => {
    if (step.do === 'undo' && labels.undoLabel === null) return;
    if (step.do === 'redo' && labels.redoLabel === null) return;
    const changed =
      step.do === 'command'
        ? await api.call('apply-command', { projectId, revision, command: step.command })
        : await api.call(step.do, { projectId, revision });
    revision = changed.revision;
    confirmed = applyPatch(confirmed, changed.patch);
    labels = { undoLabel: changed.undoLabel, redoLabel: changed.redoLabel };
  };

  /** Carries the first step out, and settles what comes of it. Throws where the host does not answer. */
  const sendOne = async (step: Step) => {
    try {
      await carryOut(step);
    } catch (thrown) {
      const code = codeOf(thrown);
      if (isNotCarried(code)) throw thrown;
      if (code === 'revision-conflict') return takeOver(step);
      await load();
      pending = pending.slice(1);
      const { left: _left, ...shown } = rebase();
      set({ ...shown, keeping: 'failed', trouble: { code, message: messageOf(thrown) } });
      return;
    }
    pending = pending.slice(1);
    const { left: _left, ...shown } = rebase();
    set(step.do === 'command' && pending.length > 0 ? {} : shown);
  };

  const waiting = () =>
    `${pending.length === 1 ? '1 step is' : `${pending.length} steps are`} not saved yet: keep this window open, it goes on asking.`;

  const sendAll = async () => {
    isSending = true;
    const troubleBefore = state.trouble;
    set({ keeping: 'saving' });
    try {
      for (let step = pending[0]; step && !state.clash; step = pending[0]) await sendOne(step);
      if (state.clash) return;
      // Whoever was told that the host does not answer need not put that away once it does.
      const isOver = state.trouble === troubleBefore && troubleBefore && isNotCarried(troubleBefore.code);
      if (isOver) set({ trouble: null });
      set({ keeping: state.keeping === 'saving' ? 'saved' : state.keeping });
    } catch (thrown) {
      const code = codeOf(thrown);
      if (isNotCarried(code)) later(send, askAgainMs);
      else pending = [];
      const message = isNotCarried(code) ? `${messageOf(thrown)} ${waiting()}` : messageOf(thrown);
      set({ keeping: 'failed', trouble: { code, message } });
    } finally {
      isSending = false;
    }
  };

  const send = () => {
    if (!isSending && !state.clash && pending.length > 0) queue = sendAll();
  };

  const step = (what: 'undo' | 'redo') => {
    pending = [...pending, { do: what }];
    set({});
    send();
  };

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispatch(command) {
      // The archive would refuse it, but only once it had been shown as if it were part of the project.
      const checked = commandSchema.safeParse(command);
      if (!checked.success) return outOfBounds(checked.error.issues[0]);
      if (state.clash) return chooseFirst;
      const applied = applyCommand(state.document, command);
      if (!applied.ok) return applied.refusal.message;
      pending = [...pending, { do: 'command', command }];
      const isUnreachable = state.trouble !== null && isNotCarried(state.trouble.code);
      set({
        document: applied.document,
        undoLabel: applied.label,
        redoLabel: null,
        ...(isUnreachable ? {} : { trouble: null }),
      });
      send();
      return null;
    },
    undo: () => {
      if (state.undoLabel !== null && !state.clash) step('undo');
    },
    redo: () => {
      if (state.redoLabel !== null && !state.clash) step('redo');
    },
    lookAt(side) {
      const { clash } = state;
      if (clash) set({ document: clash[side], clash: { ...clash, showing: side } });
    },
    settleClash(side) {
      const { clash } = state;
      if (!clash) return;
      if (side === 'theirs') {
        const keys = new Set(clash.parts.map(({ key }) => key));
        let document = confirmed;
        pending = pending.filter((one) => {
          if (one.do !== 'command') return false;
          const applied = applyCommand(document, one.command);
          if (!applied.ok) return false;
          if ([...changedParts(document, applied.document).keys()].some((key) => keys.has(key))) return false;
          document = applied.document;
          return true;
        });
      }
      const { left: _left, ...shown } = rebase();
      set({ ...shown, clash: null, keeping: pending.length > 0 ? 'saving' : 'saved' });
      send();
    },
    dismissTrouble: () => set({ trouble: null, ...(pending.length === 0 && { keeping: 'saved' }) }),
    async refresh() {
      await queue;
      await load();
      const { left: _left, ...shown } = rebase();
      set(shown);
    },
    settled: () => queue,
    sendAgain: send,
  };
};
