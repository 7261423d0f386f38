import { strToU8 } from 'fflate';
import type { ProjectId } from '../../document/ids.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { Store } from '../ports.ts';
import { bundledIssueOf } from './bundledIssues.ts';
import type { BundledIssue, BundledIssues } from './bundleFormat.ts';
import type { IssuedPart } from './writeBundle.ts';

/**
 * What was issued of a project, as its file carries it. `issued` is null where the files are left out; their record goes
 * along all the same.
 */
export const collectIssues = async (
  store: Pick<Store, 'listIssues' | 'issueInputs' | 'issuedBytes'>,
  projectId: ProjectId,
  { withoutIssued, stopIfAsked }: { readonly withoutIssued: boolean; readonly stopIfAsked: () => void },
): Promise<{ readonly issues: BundledIssues; readonly issued: readonly IssuedPart[] | null }> => {
  const listed = await store.listIssues(projectId);
  const missing = (number: number, what: string) =>
    new ApiFailure(
      'issue-missing',
      `Issue ${number} is not whole in this archive (${what}). Look whether the archive is sound (“footrail archive check”).`,
      'projectId',
    );
  const issues: BundledIssue[] = [];
  const issued = new Map<string, IssuedPart>();
  for (const issue of listed.issues) {
    stopIfAsked();
    const { number, inputsSha256, files } = issue;
    const text = await store.issueInputs(projectId, number);
    if (text === null) throw missing(number, 'its inputs');
    const inputs = strToU8(text);
    issues.push(bundledIssueOf(issue, inputs.byteLength));
    if (withoutIssued) continue;
    issued.set(inputsSha256, {
      sha256: inputsSha256,
      mediaType: 'application/json',
      fileName: `issue-${number}-inputs.json`,
      bytes: inputs,
    });
    for (const { fileName, mediaType, sha256 } of files) {
      if (issued.has(sha256)) continue;
      stopIfAsked();
      const bytes = await store.issuedBytes(projectId, number, fileName);
      if (!bytes) throw missing(number, fileName);
      issued.set(sha256, { sha256, mediaType, fileName, bytes });
    }
  }
  return {
    issues: { lastNumber: listed.nextNumber - 1, issues },
    issued: withoutIssued ? null : [...issued.values()],
  };
};
