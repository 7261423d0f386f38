import { useEffect, useState } from 'react';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

export type PlanBytes =
  | { readonly status: 'none' }
  | { readonly status: 'loading' }
  | { readonly status: 'ready'; readonly bytes: Uint8Array }
  | { readonly status: 'failed'; readonly message: string };

/** The original bytes of a plan from the archive. */
export const usePlanBytes = (api: ApiClient, sha256: string | null): PlanBytes => {
  const [state, setState] = useState<PlanBytes>({ status: 'none' });
  useEffect(() => {
    if (!sha256) {
      setState({ status: 'none' });
      return;
    }
    const abort = new AbortController();
    setState({ status: 'loading' });
    api.call('plan-bytes', { sha256 }, abort.signal).then(
      ({ bytes }) => {
        if (!abort.signal.aborted) setState({ status: 'ready', bytes });
      },
      (thrown: unknown) => {
        if (!abort.signal.aborted) setState({ status: 'failed', message: wordsFor(thrown) });
      },
    );
    return () => abort.abort();
  }, [api, sha256]);
  return state;
};
