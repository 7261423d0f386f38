import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { ProjectId } from '../../../src/document/ids.ts';
import { apiForTest } from '../portsForTest.ts';

const older = readFileSync(new URL('../../fixtures/bundle/format1-document1.zip', import.meta.url));

const withIssues = readFileSync(new URL('../../fixtures/bundle/format2-document1.zip', import.meta.url));

describe('a project file of an earlier version, written by another program', () => {
  it('opens with everything in it, is found, and can be worked on', async () => {
    const { done } = apiForTest();
    const bytes = new Uint8Array(older);
    const { projectId, outcome } = await done('import-project', { bytes });
    expect([projectId, outcome]).toEqual(['project-oldwharf1' as ProjectId, 'taken-in']);
    const opened = await done('open-project', { projectId });
    expect(opened.document.job).toMatchObject({ site: '2 Old Wharf', addenda: [], questions: [] });
    expect(opened.document.waysIn).toEqual({});
    const { projects } = await done('search-projects', { search: { words: 'wharf' } });
    expect(projects.map(({ project }) => project.projectId)).toEqual([projectId]);
    const command = { type: 'change-job' as const, changes: { client: 'Tollhouse' } };
    expect(applyCommand(opened.document, command).ok).toBe(true);
    await done('apply-command', { projectId, revision: 2, command });
    expect(await done('import-project', { bytes })).toMatchObject({ outcome: 'there-already' });
    const { changes } = await done('project-history', { projectId });
    expect(changes.map(({ by }) => by)).toEqual([null, null, 'mara']);
  });

  it('goes on as a file of this version', async () => {
    const first = apiForTest();
    const { projectId } = await first.done('import-project', { bytes: new Uint8Array(older) });
    const { bytes } = await first.done('export-project', { projectId });
    const second = apiForTest();
    await second.done('import-project', { bytes });
    expect(await second.done('open-project', { projectId })).toEqual(
      await first.done('open-project', { projectId }),
    );
  });

  it('opens with what was issued, in this format’s first version with issues', async () => {
    const { done, ports } = apiForTest();
    const bytes = new Uint8Array(withIssues);
    const { projectId, outcome, issuesAdded } = await done('import-project', { bytes });
    expect([outcome, issuesAdded]).toEqual(['taken-in', 2]);
    const { issues, nextNumber } = await ports.store.listIssues(projectId);
    expect(nextNumber).toBe(4);
    expect(issues).toMatchObject([
      { number: 1, issuedAt: '2026-11-01T08:30:00.000Z', issuedBy: 'Ines Vardi', purpose: 'tender' },
      { number: 2, issuedAt: '2026-11-02T08:30:00.000Z' },
    ]);
    const page = await done('issued-file', { projectId, number: 2, fileName: 'wharf-plan.pdf' });
    // The SHA-256 that Python's hashlib found when the file was made.
    expect(await ports.sha256(page.bytes)).toBe(
      '1a2e5bf42d073f89bea46ae80fca2ca48542748290aed43aae3d5dc12bbacb13',
    );
    expect(await done('import-project', { bytes })).toMatchObject({ outcome: 'there-already' });
    // A project that came by a file of version 1 gets the issues from one of version 2.
    const other = apiForTest();
    await other.done('import-project', { bytes: new Uint8Array(older) });
    expect(await other.done('import-project', { bytes })).toMatchObject({
      outcome: 'issues-added',
      issuesAdded: 2,
    });
  });
});
