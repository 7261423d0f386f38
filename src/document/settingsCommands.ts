import type { Draft } from 'mutative';
import type { SimpleCommand } from './command.ts';
import type { ProjectDocument } from './projectDocument.ts';
import type { Refusal } from './refusal.ts';

/** Applies commands about the quote's terms and the title block to the draft; null when done or not one of them. */
export const applySettingsCommand = (
  draft: Draft<ProjectDocument>,
  command: SimpleCommand,
): Refusal | null => {
  switch (command.type) {
    case 'set-quote-terms':
      draft.quoteTerms = command.quoteTerms as typeof draft.quoteTerms;
      return null;
    case 'set-issue-settings':
      draft.issueSettings = command.issueSettings;
      return null;
    default:
      return null;
  }
};
