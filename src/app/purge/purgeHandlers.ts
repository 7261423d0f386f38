import { ApiFailure } from '../apiFailure.ts';
import type { Handlers } from '../callContext.ts';
import type { Ports } from '../ports.ts';
import type { Projects } from '../projects.ts';
import type { purgeMethods } from './purgeMethods.ts';

const missing = () =>
  new ApiFailure(
    'project-missing',
    'There is no such project in this archive, or it is purged already.',
    'projectId',
  );

/** The use cases behind the methods of purging. */
export const purgeHandlersOver = (
  ports: Pick<Ports, 'store' | 'now'>,
  projects: Projects,
): Pick<Handlers, keyof typeof purgeMethods> => ({
  'projects-past-retention': async () => ({
    projects: await ports.store.projectsPastRetention(ports.now().slice(0, 10)),
  }),
  'preview-purge': async ({ projectId }) => {
    const preview = await ports.store.previewPurge(projectId);
    if (!preview) throw missing();
    return preview;
  },
  'purge-project': async ({ projectId, name, withCopies }) => {
    const preview = await ports.store.previewPurge(projectId);
    if (!preview) throw missing();
    if (preview.project.name !== name)
      throw new ApiFailure(
        'purge-not-confirmed',
        `The project is called “${preview.project.name}”, not “${name}”. Nothing was purged.`,
        'name',
      );
    projects.forget(projectId);
    const report = await ports.store.purgeProject({ projectId, at: ports.now(), withCopies });
    if (!report) throw missing();
    return report;
  },
  'purged-projects': async () => ({ projects: await ports.store.purgedProjects() }),
});
