import { solverVersion } from '../../fitting/problemHash.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { Handlers } from '../callContext.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import type { OpenProject, Projects } from '../projects.ts';
import type { issueMethods } from './issueMethods.ts';
import { issuesOver } from './issueUseCases.ts';

const unitUsual = 'mm';

/** The use cases behind the methods of what leaves the office. */
export const issueHandlersOver = (over: {
  readonly ports: Ports;
  readonly projects: Projects;
  readonly plans: Plans;
  readonly rangeOf: (project: OpenProject) => Promise<StockRange>;
  readonly appVersion: string;
}): Pick<Handlers, keyof typeof issueMethods> => {
  const issues = issuesOver({
    ...over,
    program: { app: over.appVersion, solver: solverVersion, reader: over.ports.plans.version },
  });
  return {
    'issue-prospect': ({ projectId, unit = unitUsual }) => issues.prospect(projectId, unit),
    'begin-issue': (wanted) => issues.begin(wanted),
    'draw-issue-document': async ({ draftId, document }) => ({ files: await issues.draw(draftId, document) }),
    'list-draft-files': async ({ draftId }) => ({
      files: (await issues.draftFiles(draftId)).map(({ bytes: _, ...entry }) => entry),
    }),
    'draft-file': async ({ draftId, fileName }) => {
      const found = (await issues.draftFiles(draftId)).find((one) => one.fileName === fileName);
      if (!found) throw new ApiFailure('file-missing', `The preview has no file "${fileName}".`, 'fileName');
      return { fileName, mediaType: found.mediaType, bytes: found.bytes };
    },
    issue: ({ draftId }) => issues.issue(draftId),

    'list-issued': async ({ projectId }) => ({ issues: await issues.list(projectId) }),
    'issued-file': async ({ projectId, number, fileName }) => {
      const { mediaType, bytes } = await issues.fileOf(projectId, number, fileName);
      return { fileName, mediaType, bytes };
    },
    'issued-zip': ({ projectId, number }) => issues.zipOf(projectId, number),
    'draw-issue-again': ({ projectId, number, passwords = {} }) =>
      issues.drawAgain(
        projectId,
        number,
        Object.fromEntries(Object.entries(passwords).flatMap(([key, one]) => (one ? [[key, one]] : []))),
      ),
    'compare-issues': async ({ projectId, from, to = null, unit = unitUsual }) => ({
      changes: await issues.compare(projectId, from, to, unit),
    }),
  };
};
