import type { archiveMethods } from './archiveMethods.ts';
import { projectBundlesOver } from './bundle/projectBundles.ts';
import type { Handlers } from './callContext.ts';
import type { Plans } from './plans.ts';
import type { Ports } from './ports.ts';
import type { OpenProject, Projects } from './projects.ts';
import { purgeHandlersOver } from './purge/purgeHandlers.ts';
import { searchUseCasesOver } from './search/searchUseCases.ts';
import { takeInEnquiry } from './search/takeInEnquiry.ts';
import type { StockRanges } from './stockRanges.ts';

const pageUsual = 50;
const similarUsual = 20;

/** The use cases behind the methods of the archive as a whole. */
export const archiveHandlersOver = (over: {
  readonly ports: Ports;
  readonly projects: Projects;
  readonly plans: Plans;
  readonly stock: StockRanges;
  readonly newProject: (name: string) => Promise<OpenProject>;
  readonly madeWith: string;
}): Pick<Handlers, keyof typeof archiveMethods> => {
  const { ports, projects } = over;
  const search = searchUseCasesOver(ports, projects);
  const bundles = projectBundlesOver(ports, { madeWith: over.madeWith, listRanges: over.stock.list });
  return {
    'archive-health': () => ports.store.health(),

    'search-projects': ({ search: wanted, offset = 0, most = pageUsual }, { signal }) =>
      search.search(wanted, offset, most, signal),
    'export-project-list': ({ search: wanted }, { signal }) => search.list(wanted, signal),
    'similar-runs': async ({ projectId, runId, most = similarUsual }, { signal }) => ({
      runs: await search.similarRuns(projectId, runId, most, signal),
    }),
    'list-saved-searches': async () => ({ searches: await ports.store.listSavedSearches() }),
    'save-search': async ({ name, search: wanted }) => {
      await ports.store.saveSearch({ name, search: wanted }, ports.now());
      return {};
    },
    'remove-saved-search': async ({ name }) => {
      await ports.store.removeSavedSearch(name);
      return {};
    },

    'take-in-enquiry': ({ fileName, bytes, password }, context) =>
      takeInEnquiry(over, { fileName, bytes, context: { ...context, password } }),

    'export-project': ({ projectId, withoutIssued }, context) =>
      bundles.exportProject(projectId, { withoutIssued }, context),
    'import-project': ({ bytes, choice = 'refuse' }, context) =>
      bundles.importProject(bytes, choice, context),
    'compare-project-file': ({ bytes }, context) => bundles.compareProject(bytes, context),
    'project-history': ({ projectId }) => bundles.history(projectId),
    'copy-project-at': ({ projectId, revision }) => bundles.copyAt(projectId, revision),

    ...purgeHandlersOver(ports, projects),
  };
};
