import type { ApiOutput } from '../app/apiMethods.ts';
import type { Api } from '../app/createApi.ts';
import { callApi } from './callApi.ts';
import type { OutputFile } from './writeOutputFiles.ts';

type OpenProject = ApiOutput<'open-project'>;

/** What goes out of a project: its schedule, and each sheet with runs on it as a PDF. */
export const projectFiles = async (
  api: Api,
  { projectId, document }: OpenProject,
): Promise<readonly OutputFile[]> => {
  const files: OutputFile[] = [await callApi(api, 'export-schedule', { projectId })];
  const sheetsWithRuns = new Set(Object.values(document.runs).map(({ sheetId }) => sheetId));
  for (const sheetId of document.sheetIds) {
    if (sheetsWithRuns.has(sheetId)) files.push(await callApi(api, 'export-plan', { projectId, sheetId }));
  }
  return files;
};
