import { useSyncExternalStore } from 'react';
import type { ProjectSession, ProjectState } from './projectSession.ts';

/** The state of an open project, kept current. */
export const useProject = (session: ProjectSession): ProjectState =>
  useSyncExternalStore(session.subscribe, session.state);
