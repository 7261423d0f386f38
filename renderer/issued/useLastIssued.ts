import { useEffect, useState } from 'react';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { CallRefused } from '../api/apiClient.ts';
import type { Issued } from './useIssuePreview.ts';

/** The last issue of a project; null before the first, and while it is not known. Read again when the project changes state. */
export const useLastIssued = (
  api: ApiClient,
  projectId: ProjectId,
  { job }: ProjectDocument,
  isScreenOpen: boolean,
): Issued | null => {
  const [last, setLast] = useState<Issued | null>(null);
  const { state } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: state and screen tell when there may be another
  useEffect(() => {
    let isGone = false;
    api.call('list-issued', { projectId }).then(
      ({ issues }) => !isGone && setLast(issues.at(-1) ?? null),
      (thrown: unknown) => {
        // The issued screen says what is wrong with the archive; the rail does without its word.
        if (!(thrown instanceof CallRefused)) throw thrown;
      },
    );
    return () => {
      isGone = true;
    };
  }, [api, projectId, state, isScreenOpen]);
  return last;
};
