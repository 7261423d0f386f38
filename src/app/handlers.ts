import { checkWayIn } from '../access/checkWayIn.ts';
import { parseWayIn } from '../access/wayInContract.ts';
import { fitRun } from '../fitting/fitRun.ts';
import { poseProblem } from '../fitting/poseProblem.ts';
import { solverVersion } from '../fitting/problemHash.ts';
import { parseProblem } from '../fitting/problemSchema.ts';
import { demoRange } from '../stock/demoRange.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { ApiFailure } from './apiFailure.ts';
import { archiveHandlersOver } from './archiveHandlers.ts';
import type { Handlers } from './callContext.ts';
import { openDemo } from './demo/openDemo.ts';
import { exportDxf, exportSettingOut } from './drawingExports.ts';
import { exportPlan, exportSchedule } from './exports.ts';
import { issueHandlersOver } from './issue/issueHandlers.ts';
import { plansOver } from './plans.ts';
import type { Ports } from './ports.ts';
import { type OpenProject, projectsOver } from './projects.ts';
import { revisionHandlersOver } from './revision/revisionHandlers.ts';
import { stockRangesOver } from './stockRanges.ts';
import { exportCsvs, exportWorkbook } from './workbookExports.ts';

/** The version that the program calls itself by; package.json has the same (a test compares them). */
export const appVersion = '0.1.0';

const steps = ({ history }: OpenProject) => ({
  undoLabel: history.done.at(-1)?.label ?? null,
  redoLabel: history.undone.at(-1)?.label ?? null,
});

const opened = (project: OpenProject) => ({
  projectId: project.projectId,
  revision: project.revision,
  document: project.document,
  ...steps(project),
});

/** Takes the bad-input value of a contract out as a failure of the call, with the place inside the call's input. */
const failOn = (
  error: { readonly code: string; readonly message: string; readonly path: string },
  within: string,
) => new ApiFailure(error.code, error.message, error.path ? `${within}.${error.path}` : within);

/** The use cases behind the API's methods. */
export const handlersOver = (ports: Ports): Handlers => {
  const projects = projectsOver(ports);
  const plans = plansOver(ports);

  const stock = stockRangesOver(ports);

  const rangeOf = ({ document }: OpenProject): Promise<StockRange> =>
    stock.find(document.stockRange, 'stockRange');

  const newProject = async (name: string) => {
    await stock.list();
    return projects.create(name, { id: demoRange.id, version: demoRange.version });
  };

  return {
    ...archiveHandlersOver({
      ports,
      projects,
      plans,
      stock,
      newProject,
      madeWith: `Footrail ${appVersion}`,
    }),

    ...revisionHandlersOver({ ports, projects, plans, rangeOf }),
    ...issueHandlersOver({ ports, projects, plans, rangeOf, appVersion }),

    'app-info': async () => ({ version: appVersion, solverVersion, readerVersion: ports.plans.version }),

    'list-projects': async ({ offset = 0, most }) => {
      const all = await ports.store.listProjects();
      return {
        total: all.length,
        projects: all.slice(offset, most === undefined ? undefined : offset + most),
      };
    },
    'create-project': async ({ name }) => opened(await newProject(name)),
    'open-project': async ({ projectId }) => opened(await projects.open(projectId)),
    'open-demo': async () => opened(await openDemo({ ports, projects, plans, newProject })),
    'remove-project': async ({ projectId }) => {
      await projects.remove(projectId);
      return {};
    },

    'apply-command': async ({ projectId, revision, command }) => {
      const { project, patch } = await projects.change(projectId, revision, command);
      return { revision: project.revision, patch, ...steps(project) };
    },
    undo: async ({ projectId, revision }) => {
      const { project, patch } = await projects.undo(projectId, revision);
      return { revision: project.revision, patch, ...steps(project) };
    },
    redo: async ({ projectId, revision }) => {
      const { project, patch } = await projects.redo(projectId, revision);
      return { revision: project.revision, patch, ...steps(project) };
    },

    'take-in-plan': ({ fileName, bytes, password }, context) =>
      plans.takeIn(fileName, bytes, { ...context, password }),
    'plan-bytes': async ({ sha256 }) => {
      const { plan, bytes } = await plans.bytesOf(sha256);
      return { fileName: plan.fileName, bytes };
    },
    'read-sheet': async ({ sha256, page, password, layers }, context) => ({
      reading: await plans.reading(sha256, page, { ...context, password, layers }),
    }),
    'sheet-linework': async ({ sha256, page, password, layers }, context) => ({
      bytes: await plans.linework(sha256, page, { ...context, password, layers }),
    }),
    'read-plan': async ({ bytes, page = 1, password }, context) => ({
      reading: await plans.readOnce(bytes, page, { ...context, password }),
    }),

    fit: async ({ problem, alternatives, order }) => {
      const parsed = parseProblem(problem);
      if (!parsed.ok) throw failOn(parsed.error, 'problem');
      return {
        fit: fitRun(parsed.problem, {
          ...(alternatives ? { alternatives } : {}),
          ...(order ? { order } : {}),
        }),
      };
    },
    'fit-run': async ({ projectId, runId, alternatives }) => {
      const project = await projects.open(projectId);
      const posed = poseProblem(project.document, runId, await rangeOf(project));
      if (!posed.ok) throw new ApiFailure(posed.code, posed.message, 'runId');
      const fit = fitRun(posed.problem, { ...(alternatives ? { alternatives } : {}), order: posed.order });
      return { problem: posed.problem, fit };
    },
    access: async ({ wayIn }) => {
      const parsed = parseWayIn(wayIn);
      if (!parsed.ok) throw failOn(parsed.error, 'wayIn');
      return { access: checkWayIn(parsed.wayIn) };
    },

    'list-stock-ranges': async () => ({ ranges: await stock.list() }),
    'save-stock-range': async ({ range, after }) => ({ range: await stock.save(range, after) }),
    'stock-range-csv': ({ id, version }) => stock.csvOf({ id, version }),
    'read-stock-csv': async ({ id, version, bytes }) => ({
      reading: await stock.readCsv({ id, version }, bytes),
    }),

    'export-schedule': async ({ projectId }) => {
      const project = await projects.open(projectId);
      return exportSchedule(project, await rangeOf(project));
    },
    'export-plan': async ({ projectId, sheetId, password }) => {
      const project = await projects.open(projectId);
      return exportPlan({ plans, ports }, { project, range: await rangeOf(project), sheetId, password });
    },
    'export-workbook': async ({ projectId, quote, paper }) => {
      const project = await projects.open(projectId);
      return exportWorkbook({ project, range: await rangeOf(project), at: ports.now(), quote, paper });
    },
    'export-csvs': async ({ projectId, quote, paper }) => {
      const project = await projects.open(projectId);
      return { files: exportCsvs({ project, range: await rangeOf(project), at: ports.now(), quote, paper }) };
    },
    'export-setting-out': async ({ projectId, sheetId, password, paper }) => {
      const project = await projects.open(projectId);
      return exportSettingOut(
        { plans, ports },
        { project, range: await rangeOf(project), sheetId, password, paper },
      );
    },
    'export-dxf': async ({ projectId, sheetId, password }) => {
      const project = await projects.open(projectId);
      return exportDxf({ plans, ports }, { project, range: await rangeOf(project), sheetId, password });
    },
  };
};
