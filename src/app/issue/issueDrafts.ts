import { ApiFailure } from '../apiFailure.ts';
import type { IssuedFile } from '../exports.ts';
import type { DrawnFile } from './drawIssue.ts';
import type { IssueInputs } from './issueInputs.ts';

/** An issue in the making: what it is made from, and the documents drawn so far. */
export interface IssueDraft {
  readonly draftId: string;
  readonly inputs: IssueInputs;
  /** The inputs as they will be kept. */
  readonly text: string;
  readonly passwords: Readonly<Record<string, string>>;
  readonly isRecorded: boolean;
  readonly drawn: Map<string, readonly IssuedFile[]>;
  /** The whole delivery, once it was put together. */
  packaged: readonly DrawnFile[] | null;
}

/** How many previews are held at once; an older one is drawn again when it is wanted. */
const heldMost = 3;

/** Holds previews between the calls that draw, show and issue them. In memory only: nothing of them is kept. */
export const createIssueDrafts = () => {
  const held = new Map<string, IssueDraft>();
  return {
    put(draft: IssueDraft): void {
      held.set(draft.draftId, draft);
      const oldest = held.keys().next();
      if (held.size > heldMost && !oldest.done) held.delete(oldest.value);
    },

    get(draftId: string): IssueDraft {
      const draft = held.get(draftId);
      if (draft) return draft;
      throw new ApiFailure('preview-gone', 'This preview is no longer held. Draw it again.', 'draftId');
    },

    /** All documents of a draft in their order. @throws ApiFailure `preview-incomplete` */
    wholeOf({ inputs, drawn }: IssueDraft) {
      return inputs.documents.map((key) => {
        const files = drawn.get(key);
        if (!files)
          throw new ApiFailure(
            'preview-incomplete',
            'Not every document of this preview is drawn yet.',
            'draftId',
          );
        return { key, files };
      });
    },

    remove(draftId: string): void {
      held.delete(draftId);
    },
  };
};
