import { useCallback, useRef, useState } from 'react';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

/** What came of one file. */
export interface TakenFile {
  readonly fileName: string;
  readonly words: string;
  readonly projectId: ProjectId | null;
  readonly isTrouble: boolean;
}

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
}

const fileWords = {
  'taken-in': 'taken in with all its changes',
  'there-already': 'there already, nothing changed',
  'taken-in-as-copy': 'taken in as a copy',
} as const;

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
          return { fileName, words: `${name}: ${fileWords[outcome]}`, projectId, isTrouble: false };
        }
        const taken = await api.call('take-in-enquiry', { fileName, bytes }, signal);
        const words =
          taken.outcome === 'known'
            ? `is the plan of ${taken.name} already`
            : taken.unread === null
              ? 'a new enquiry'
              : `a new enquiry; its text can’t be sought: ${taken.unread}`;
        return { fileName, words, projectId: taken.projectId, isTrouble: false };
      } catch (thrown) {
        return { fileName, words: wordsFor(thrown), projectId: null, isTrouble: true };
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
  };
};
