import { useEffect, useState } from 'react';
import type { ProjectId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument, Sheet } from '../../src/document/projectDocument.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import type { Registered } from './comparedSheets.ts';

export type Comparison =
  | { readonly status: 'off' }
  | { readonly status: 'comparing' }
  | {
      readonly status: 'ready';
      readonly registered: Registered;
      /** The old sheet's linework, for swapping. */
      readonly oldLinework: Uint8Array;
    }
  | { readonly status: 'failed'; readonly message: string };

/** What differs between a sheet and the one that it follows, while that is wanted. */
export const useComparedSheets = (over: {
  readonly api: ApiClient;
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly sheet: Sheet | null;
  readonly isWanted: boolean;
  readonly passwordOf: (planSha256: string) => string | undefined;
}): Comparison => {
  const { api, projectId, sheet, isWanted } = over;
  const [state, setState] = useState<Comparison & { readonly sheetId?: SheetId }>({ status: 'off' });
  const old = sheet?.revisionOf ? over.document.sheets[sheet.revisionOf.supersedes] : undefined;
  const password = sheet ? over.passwordOf(sheet.planSha256) : undefined;
  const oldPassword = old ? over.passwordOf(old.planSha256) : undefined;
  const sheetId = sheet?.id;
  const oldSha256 = old?.planSha256;
  const oldPage = old?.pageNumber;
  const oldLayers = old?.layers;

  useEffect(() => {
    if (!isWanted || !sheetId || !oldSha256 || !oldPage || !oldLayers) {
      setState({ status: 'off' });
      return;
    }
    const abort = new AbortController();
    setState({ status: 'comparing' });
    const compare = async () => {
      const passwords = { ...(password ? { password } : {}), ...(oldPassword ? { oldPassword } : {}) };
      const [{ registration }, { bytes }] = await Promise.all([
        api.call('compare-linework', { projectId, sheetId, ...passwords }, abort.signal),
        api.call(
          'sheet-linework',
          {
            sha256: oldSha256,
            page: oldPage,
            layers: oldLayers,
            ...(oldPassword ? { password: oldPassword } : {}),
          },
          abort.signal,
        ),
      ]);
      if (abort.signal.aborted) return;
      setState(
        registration.isRegistered
          ? { status: 'ready', registered: registration, oldLinework: bytes, sheetId }
          : { status: 'failed', message: registration.reasons.join(' ') },
      );
    };
    compare().catch((thrown: unknown) => {
      if (!abort.signal.aborted) setState({ status: 'failed', message: wordsFor(thrown) });
    });
    return () => abort.abort();
  }, [api, projectId, sheetId, isWanted, password, oldPassword, oldSha256, oldPage, oldLayers]);
  // Of another sheet, nothing is shown for a moment.
  return state.status === 'ready' && state.sheetId !== sheetId ? { status: 'comparing' } : state;
};
