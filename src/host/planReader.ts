import type { PlanReader } from '../app/ports.ts';
import { createPlanReader } from './reading/createPlanReader.ts';

/** Where the reading thread starts: its source beside this one, or its bundle beside the bundle that this is part of. */
const workerUrl = (): URL =>
  import.meta.url.endsWith('.ts')
    ? new URL('./reading/readingWorker.ts', import.meta.url)
    : new URL('./readingWorker.mjs', import.meta.url);

/** The plan reader as the Node hosts use it: a fresh reading thread for each question. */
export const createThreadedPlanReader = (): PlanReader => createPlanReader({ workerUrl: workerUrl() });
