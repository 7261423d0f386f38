import type { StockRange } from '../../stock/stockSchema.ts';
import type { Handlers } from '../callContext.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import type { OpenProject, Projects } from '../projects.ts';
import type { revisionMethods } from './revisionMethods.ts';
import { revisionsOver } from './revisionUseCases.ts';

/** The use cases behind the methods of plan revisions. */
export const revisionHandlersOver = (over: {
  readonly ports: Ports;
  readonly projects: Projects;
  readonly plans: Plans;
  readonly rangeOf: (project: OpenProject) => Promise<StockRange>;
}): Pick<Handlers, keyof typeof revisionMethods> => {
  const revisions = revisionsOver(over);
  return {
    'register-revision': async (page, context) => ({
      registration: await revisions.register(page, context),
    }),
    'compare-linework': async (wanted, context) => ({
      registration: await revisions.compareLinework(wanted, context),
    }),
    'revise-sheet': async (wanted, context) => {
      const { changed, sheetId, findings } = await revisions.revise(wanted, context);
      const { project, patch } = changed;
      return {
        revision: project.revision,
        patch,
        undoLabel: project.history.done.at(-1)?.label ?? null,
        redoLabel: project.history.undone.at(-1)?.label ?? null,
        sheetId,
        findings,
      };
    },
    'compare-revision': async ({ projectId, sheetId, unit = 'mm' }) => ({
      changes: await revisions.compare(projectId, sheetId, unit),
    }),
  };
};
