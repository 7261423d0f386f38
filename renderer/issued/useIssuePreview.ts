import { useCallback, useEffect, useRef, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { ProjectSession } from '../project/projectSession.ts';
import { wordsFor } from '../shell/wordsFor.ts';

export type IssueFile = ApiOutput<'list-draft-files'>['files'][number];
export type Issued = ApiOutput<'list-issued'>['issues'][number];
type Draft = ApiOutput<'begin-issue'>;

/** How far the preview of the next issue is. */
export type IssuePreview =
  | { readonly status: 'none' }
  | {
      readonly status: 'drawing';
      readonly done: number;
      readonly of: number;
      /** What is drawn now. */
      readonly name: string;
    }
  | {
      readonly status: 'ready' | 'issuing';
      readonly draft: Draft;
      readonly files: readonly IssueFile[];
      /** The project that it shows; any later one makes it outdated. */
      readonly document: ProjectDocument;
    };

export interface IssuePreviewing {
  readonly preview: IssuePreview;
  readonly trouble: string | null;
  readonly draw: (
    documents: readonly { readonly key: string; readonly name: string }[],
    passwords: Readonly<Record<string, string>>,
  ) => Promise<void>;
  readonly cancel: () => void;
  /** Issues what is shown; answers the issue, or null where it was refused. */
  readonly issue: () => Promise<Issued | null>;
}

/** Draws the preview of the next issue document by document, and issues it. */
export const useIssuePreview = (api: ApiClient, session: ProjectSession): IssuePreviewing => {
  const [preview, setPreview] = useState<IssuePreview>({ status: 'none' });
  const [trouble, setTrouble] = useState<string | null>(null);
  const controller = useRef<AbortController | null>(null);
  const cancel = useCallback(() => controller.current?.abort(), []);
  useEffect(() => cancel, [cancel]);

  const draw: IssuePreviewing['draw'] = async (documents, passwords) => {
    controller.current?.abort();
    const mine = new AbortController();
    controller.current = mine;
    setTrouble(null);
    const tell = (done: number, name: string) =>
      setPreview({ status: 'drawing', done, of: documents.length, name });
    tell(0, documents[0]?.name ?? '');
    try {
      await session.settled();
      const { projectId, unsaved, document } = session.state();
      if (unsaved > 0) throw new Error('Not everything is saved yet, so the issue would lack it.');
      const draft = await api.call(
        'begin-issue',
        { projectId, documents: documents.map(({ key }) => key), passwords },
        mine.signal,
      );
      for (const [index, { key, name }] of documents.entries()) {
        if (mine.signal.aborted) break;
        tell(index, name);
        await api.call('draw-issue-document', { draftId: draft.draftId, document: key }, mine.signal);
      }
      if (mine.signal.aborted) throw new Error('Cancelled.');
      const { files } = await api.call('list-draft-files', { draftId: draft.draftId }, mine.signal);
      if (!mine.signal.aborted) setPreview({ status: 'ready', draft, files, document });
    } catch (thrown) {
      if (controller.current !== mine) return;
      setPreview({ status: 'none' });
      setTrouble(mine.signal.aborted ? null : wordsFor(thrown));
    }
  };

  const issue: IssuePreviewing['issue'] = async () => {
    if (preview.status !== 'ready') return null;
    setTrouble(null);
    setPreview({ ...preview, status: 'issuing' });
    try {
      const { issue: issued } = await api.call('issue', { draftId: preview.draft.draftId });
      // Issuing changed the project's state: the session must know before the next command.
      await session.refresh();
      setPreview({ status: 'none' });
      return issued;
    } catch (thrown) {
      setPreview(preview);
      setTrouble(wordsFor(thrown));
      return null;
    }
  };

  return { preview, trouble, draw, cancel, issue };
};
