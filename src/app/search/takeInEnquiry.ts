import type { ProjectId, SheetId } from '../../document/ids.ts';
import type { Plans } from '../plans.ts';
import type { Ports, ReadContext } from '../ports.ts';
import { PlanError } from '../ports.ts';
import type { OpenProject, Projects } from '../projects.ts';

export interface TakenInEnquiry {
  readonly projectId: ProjectId;
  readonly name: string;
  /** `known`: a project with this very file was there already, and is the one answered. */
  readonly outcome: 'made' | 'known';
  readonly pages: number;
  /** Why the text of the first page can't be sought; null where it can. */
  readonly unread: string | null;
}

/**
 * Makes a project at state enquiry of one plan file: named by the file, with the first page as its sheet, and that
 * page's text read so that it is found by it. A file that a project has already makes none.
 */
export const takeInEnquiry = async (
  over: {
    readonly ports: Pick<Ports, 'store' | 'freshId' | 'sha256'>;
    readonly projects: Projects;
    readonly plans: Plans;
    readonly newProject: (name: string) => Promise<OpenProject>;
  },
  file: { readonly fileName: string; readonly bytes: Uint8Array; readonly context: ReadContext },
): Promise<TakenInEnquiry> => {
  const { ports, projects, plans } = over;
  const { fileName, bytes, context } = file;
  const planSha256 = await ports.sha256(bytes);
  const known = await ports.store.searchProjects({ words: [], planSha256, offset: 0, most: 1 });
  const before = known?.projects[0];
  if (before) {
    const { projectId, name } = before.project;
    return { projectId, name, outcome: 'known', pages: 0, unread: null };
  }
  const { sha256, pages } = await plans.takeIn(fileName, bytes, context);
  const name =
    fileName
      .replace(/\.pdf$/i, '')
      .trim()
      .slice(0, 200) || 'Plan';
  const project = await over.newProject(name);
  const [first] = pages;
  await projects.change(project.projectId, project.revision, {
    type: 'add-sheet',
    sheet: {
      id: `sheet-${ports.freshId()}` as SheetId,
      name: pages.length > 1 ? 'Page 1' : name,
      planSha256: sha256,
      planFileName: fileName,
      pageNumber: first?.page ?? 1,
      userUnit: first?.userUnit ?? 1,
      acceptedScale: null,
      layers: {},
    },
  });
  let unread: string | null = null;
  try {
    await plans.reading(sha256, first?.page ?? 1, context);
  } catch (error) {
    // The file is kept and the project made; only its text is not known.
    if (!(error instanceof PlanError)) throw error;
    unread = error.message;
  }
  return { projectId: project.projectId, name, outcome: 'made', pages: pages.length, unread };
};
