import { useCallback, useRef, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { type ApiClient, CallRefused } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

/** What came of one file. */
export interface TakenFile {
  readonly fileName: string;
  readonly words: string;
  readonly projectId: ProjectId | null;
  readonly isTrouble: boolean;
  /** The project file, where its project has parted from the archive's and a person has to choose. */
  readonly parted: File | null;
}

type Taken = ApiOutput<'import-project'>;

export interface TakingIn {
  /** Null while no files were given. */
  readonly files: {
    readonly of: number;
    readonly done: readonly TakenFile[];
    readonly isBusy: boolean;
  } | null;
  readonly takeIn: (files: readonly File[]) => void;
  readonly stop: () => void;
  readonly putAway: () => void;
  /** Notes what a person chose for a project file that had parted; null: to keep what is here. */
  readonly settle: (file: File, taken: Taken | null) => void;
}

const fileWords = {
  'taken-in': 'taken in with all its changes',
  'there-already': 'there already, nothing changed',
  'gone-on': 'gone on as the file does',
  'issues-added': 'there already; what was issued elsewhere was added',
  'theirs-taken': 'the file’s state taken over; what was here is in the history',
  'taken-in-as-copy': 'taken in as a copy',
} as const;

/** Refusals over which a person has to choose. */
const partedCodes: ReadonlySet<string> = new Set(['bundle-project-differs', 'bundle-issue-differs']);

const isProjectFile = (file: File): boolean => /\.zip$/i.test(file.name);

/**
 * Takes in many files one after another: a plan PDF becomes a project at state enquiry, a project file becomes the
 * project that it holds. A file that fails says why and the rest go on.
 */
export const useTakeInMany = (api: ApiClient, onTaken: () => void): TakingIn => {
  const [files, setFiles] = useState<TakingIn['files']>(null);
  const abort = useRef<AbortController | null>(null);

  const takeOne = useCallback(
    async (file: File, signal: AbortSignal): Promise<TakenFile> => {
      const fileName = file.name;
      try {
        const bytes = new Uint8Array(await file.arrayBuffer());
        if (isProjectFile(file)) {
          const { projectId, name, outcome } = await api.call('import-project', { bytes }, signal);
          return {
            fileName,
            words: `${name}: ${fileWords[outcome]}`,
            projectId,
            isTrouble: false,
            parted: null,
          };
        }
        const taken = await api.call('take-in-enquiry', { fileName, bytes }, signal);
        const words =
          taken.outcome === 'known'
            ? `is the plan of ${taken.name} already`
            : taken.unread === null
              ? 'a new enquiry'
              : `a new enquiry; its text can’t be sought: ${taken.unread}`;
        return { fileName, words, projectId: taken.projectId, isTrouble: false, parted: null };
      } catch (thrown) {
        if (thrown instanceof CallRefused && partedCodes.has(thrown.code))
          return {
            fileName,
            words: 'has gone another way than here:',
            projectId: null,
            isTrouble: true,
            parted: file,
          };
        return { fileName, words: wordsFor(thrown), projectId: null, isTrouble: true, parted: null };
      }
    },
    [api],
  );

  const takeIn = useCallback(
    (given: readonly File[]) => {
      if (given.length === 0) return;
      abort.current?.abort();
      const controller = new AbortController();
      abort.current = controller;
      setFiles({ of: given.length, done: [], isBusy: true });
      const takeAll = async () => {
        for (const file of given) {
          if (controller.signal.aborted) break;
          const taken = await takeOne(file, controller.signal);
          setFiles((before) => before && { ...before, done: [...before.done, taken] });
        }
        setFiles((before) => before && { ...before, isBusy: false });
        onTaken();
      };
      void takeAll();
    },
    [onTaken, takeOne],
  );

  return {
    files,
    takeIn,
    stop: useCallback(() => abort.current?.abort(), []),
    putAway: useCallback(() => setFiles(null), []),
    settle: useCallback(
      (file, taken) => {
        const settled: Partial<TakenFile> = taken
          ? { words: `${taken.name}: ${fileWords[taken.outcome]}`, projectId: taken.projectId }
          : { words: 'not taken in: what is here stays as it is' };
        setFiles(
          (before) =>
            before && {
              ...before,
              done: before.done.map((one) =>
                one.parted === file ? { ...one, ...settled, isTrouble: false, parted: null } : one,
              ),
            },
        );
        if (taken) onTaken();
      },
      [onTaken],
    ),
  };
};
