import type { ApiInput, ApiOutput } from '../app/apiMethods.ts';
import type { Api } from '../app/createApi.ts';
import { utf8 } from '../app/utf8.ts';
import { callApi } from './callApi.ts';
import type { OutputFile } from './writeOutputFiles.ts';

type OpenProject = ApiOutput<'open-project'>;

/** What the person wants of the workbook: settings of the quote as their file has them, and the paper. */
export interface WorkbookWishes {
  readonly quote?: unknown;
  readonly paper?: string | undefined;
}

/** The workbook and its tables. @throws CommandError with the place in the quote's file, or the flag. */
const workbookFiles = async (
  api: Api,
  projectId: OpenProject['projectId'],
  { quote, paper }: WorkbookWishes,
): Promise<readonly OutputFile[]> => {
  // The API checks both: what it refuses is named by its place in the file.
  const wanted = {
    projectId,
    ...(quote === undefined ? {} : { quote }),
    ...(paper === undefined ? {} : { paper }),
  } as ApiInput<'export-workbook'>;
  const workbook = await callApi(api, 'export-workbook', wanted, 'quote');
  const { files } = await callApi(api, 'export-csvs', wanted, 'quote');
  return [
    workbook,
    ...files.map(({ fileName, mediaType, text }) => ({ fileName, mediaType, bytes: utf8(text) })),
  ];
};

/**
 * What goes out of a project: its schedule, its workbook and the workbook’s tables, and for each sheet with runs its plan
 * and setting-out drawing as PDF and its runs as a CAD file.
 */
export const projectFiles = async (
  api: Api,
  { projectId, document }: OpenProject,
  wishes: WorkbookWishes = {},
): Promise<readonly OutputFile[]> => {
  const files: OutputFile[] = [
    await callApi(api, 'export-schedule', { projectId }),
    ...(await workbookFiles(api, projectId, wishes)),
  ];
  const sheetsWithRuns = new Set(Object.values(document.runs).map(({ sheetId }) => sheetId));
  for (const sheetId of document.sheetIds) {
    if (!sheetsWithRuns.has(sheetId)) continue;
    files.push(await callApi(api, 'export-plan', { projectId, sheetId }));
    // Whoever prints tables on Letter prints drawings on the sheets that go with it.
    const paper = wishes.paper === 'letter' ? 'us' : 'iso';
    files.push(await callApi(api, 'export-setting-out', { projectId, sheetId, paper }));
    files.push(await callApi(api, 'export-dxf', { projectId, sheetId }));
  }
  return files;
};
