import type { ProjectRow } from '../app/projectRow.ts';
import type { ProjectId } from '../document/ids.ts';

/** A row of the table of projects. */
export interface ProjectRecord {
  readonly project_key: number;
  readonly project_id: string;
  readonly name: string;
  readonly job_number: string;
  readonly client: string;
  readonly site: string;
  readonly state: string;
  readonly tender_date: string;
  readonly sheets: number;
  readonly runs: number;
  readonly created_at: string;
  readonly modified_at: string;
  readonly removed_at: string | null;
  readonly change_number: number;
  readonly revision: number;
  readonly last_event_digest: Uint8Array;
  readonly document_digest: Uint8Array;
  readonly digest: Uint8Array;
}

export const rowOf = (record: ProjectRecord): ProjectRow => ({
  projectId: record.project_id as ProjectId,
  name: record.name,
  jobNumber: record.job_number,
  client: record.client,
  site: record.site,
  state: record.state,
  tenderDate: record.tender_date,
  sheets: record.sheets,
  runs: record.runs,
  createdAt: record.created_at,
  modifiedAt: record.modified_at,
});
