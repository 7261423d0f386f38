import type { ApiOutput } from '../app/apiMethods.ts';
import type { Api } from '../app/createApi.ts';
import { utf8 } from '../app/utf8.ts';
import { callApi } from './callApi.ts';
import type { OutputFile } from './writeOutputFiles.ts';

type OpenProject = ApiOutput<'open-project'>;

const tablesOf = async (api: Api, projectId: OpenProject['projectId']): Promise<readonly OutputFile[]> => {
  const { files } = await callApi(api, 'export-csvs', { projectId });
  return files.map(({ fileName, mediaType, text }) => ({ fileName, mediaType, bytes: utf8(text) }));
};

/** What goes out of a project: its schedule, its workbook and the workbook’s tables, and each sheet with runs as a PDF. */
export const projectFiles = async (
  api: Api,
  { projectId, document }: OpenProject,
): Promise<readonly OutputFile[]> => {
  const files: OutputFile[] = [
    await callApi(api, 'export-schedule', { projectId }),
    await callApi(api, 'export-workbook', { projectId }),
    ...(await tablesOf(api, projectId)),
  ];
  const sheetsWithRuns = new Set(Object.values(document.runs).map(({ sheetId }) => sheetId));
  for (const sheetId of document.sheetIds) {
    if (sheetsWithRuns.has(sheetId)) files.push(await callApi(api, 'export-plan', { projectId, sheetId }));
  }
  return files;
};
