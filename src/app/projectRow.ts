import type { ProjectId } from '../document/ids.ts';

/** One project as the archive lists it. */
export interface ProjectRow {
  readonly projectId: ProjectId;
  readonly name: string;
  readonly jobNumber: string;
  readonly client: string;
  readonly site: string;
  readonly state: string;
  readonly tenderDate: string;
  readonly sheets: number;
  readonly runs: number;
  /** ISO 8601 instants in UTC. */
  readonly createdAt: string;
  readonly modifiedAt: string;
}
