import type { Draft } from 'mutative';
import type { SimpleCommand } from './command.ts';
import type { ProjectDocument } from './projectDocument.ts';
import { type Refusal, refusal } from './refusal.ts';

/** Applies commands about site measures, the quote's terms and the title block to the draft; null when done or not one of them. */
export const applySettingsCommand = (
  draft: Draft<ProjectDocument>,
  command: SimpleCommand,
): Refusal | null => {
  switch (command.type) {
    case 'record-site-measure': {
      const { siteMeasure } = command;
      if (draft.siteMeasures[siteMeasure.id]) return refusal('site-measure-exists', 'siteMeasure.id');
      const run = draft.runs[siteMeasure.runId];
      if (!run) return refusal('run-missing', 'siteMeasure.runId');
      if (!run.frontLine.slice(0, -1).some(({ id }) => id === siteMeasure.vertexId))
        return refusal('straight-missing', 'siteMeasure.vertexId');
      for (const earlier of Object.values(draft.siteMeasures))
        if (earlier.runId === siteMeasure.runId && earlier.vertexId === siteMeasure.vertexId)
          delete draft.siteMeasures[earlier.id];
      draft.siteMeasures[siteMeasure.id] = siteMeasure;
      return null;
    }
    case 'remove-site-measure':
      if (!draft.siteMeasures[command.siteMeasureId]) return refusal('site-measure-missing', 'siteMeasureId');
      delete draft.siteMeasures[command.siteMeasureId];
      return null;
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
