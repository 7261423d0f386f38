import { randomBytes } from 'node:crypto';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { NewIssue } from '../../src/app/issue/issuePort.ts';
import { cutParts } from '../../src/archive/cutParts.ts';
import { issueQueries } from '../../src/archive/issueStore.ts';
import { archivePathOf } from '../../src/archive/openArchive.ts';
import { openForTest, temporaryFolder } from './editedArchive.ts';
import { newProject, projectIdOf } from './editedSteps.ts';

const project = projectIdOf(1);

const issueNumbered = (number: number, bytes: Uint8Array): NewIssue => ({
  number,
  issuedAt: '2027-03-15T09:00:00.000Z',
  issuedBy: 'Mara Okafor',
  purpose: 'tender',
  revision: 0,
  program: 'Footrail 0.1.0',
  inputs: JSON.stringify({ number, drawn: 'x'.repeat(50_000) }),
  files: [{ document: 'plan', fileName: 'plan.pdf', mediaType: 'application/pdf', bytes }],
});

const archiveWithIssues = async (...contents: readonly Uint8Array[]) => {
  const folder = temporaryFolder();
  const archive = await openForTest(folder);
  await newProject(archive.store, project);
  for (const [index, bytes] of contents.entries()) {
    const issue = issueNumbered(index + 1, bytes);
    const added = await archive.store.addIssue({ projectId: project, expectedRevision: 0, issue });
    expect(added).toEqual({ ok: true, revision: 0 });
  }
  return { folder, archive };
};

describe('an issue in the archive', () => {
  it('is given back byte for byte after the archive was closed and opened', async () => {
    const bytes = randomBytes(700_000);
    const { folder, archive } = await archiveWithIssues(bytes);
    archive.close();
    const again = await openForTest(folder);
    expect(again.health().state).toBe('sound');
    const { issues, nextNumber } = await again.store.listIssues(project);
    expect(nextNumber).toBe(2);
    expect(issues).toMatchObject([
      { number: 1, issuedBy: 'Mara Okafor', purpose: 'tender', files: [{ byteLength: 700_000 }] },
    ]);
    const kept = await again.store.issuedBytes(project, 1, 'plan.pdf');
    expect(Buffer.compare(kept ?? new Uint8Array(), bytes)).toBe(0);
    expect(await again.store.issueInputs(project, 1)).toBe(issueNumbered(1, bytes).inputs);
    expect(await again.store.issuedBytes(project, 1, 'other.pdf')).toBeNull();
    expect(await again.store.issuedBytes(project, 2, 'plan.pdf')).toBeNull();
    expect(await again.check()).toMatchObject({ problems: [], issues: 1 });
  });

  it('is not kept out of turn, nor of a project that has moved on', async () => {
    const { archive } = await archiveWithIssues(randomBytes(10));
    for (const [number, expectedRevision] of [
      [1, 0],
      [0, 0],
      [2, 7],
    ] as const) {
      const issue = issueNumbered(number, randomBytes(10));
      expect(await archive.store.addIssue({ projectId: project, expectedRevision, issue })).toEqual({
        ok: false,
        revision: 0,
      });
    }
    expect((await archive.store.listIssues(project)).issues).toHaveLength(1);
  });

  it('shares what it has in common with another issue', async () => {
    const page = randomBytes(1_000_000);
    const { folder } = await archiveWithIssues(
      Buffer.concat([page, Buffer.from('first overlay')]),
      Buffer.concat([Buffer.from('a longer head'), page, Buffer.from('second overlay')]),
    );
    const plain = new Database(archivePathOf(folder), { readonly: true });
    const { total } = plain
      .prepare<[], { total: number }>('SELECT sum(length(packed)) AS total FROM issue_parts')
      .get()!;
    plain.close();
    // The page once, and no more than a few parts (128 KiB at most) twice.
    expect(total).toBeLessThan(1_000_000 + 3 * 128 * 1024);
  });

  it.each([
    ['changed', `UPDATE issues SET issued_by = 'someone else'`],
    ['given another number', 'UPDATE issues SET number = 9'],
    ['deleted', 'DELETE FROM issues'],
    [
      'replaced',
      `INSERT OR REPLACE INTO issues SELECT issue_key, project_key, number, issued_at, 'someone else',
                    purpose, revision, program, contents, digest FROM issues`,
    ],
    [
      'replaced by its number',
      `INSERT OR REPLACE INTO issues SELECT 99, project_key, number, issued_at, 'someone else',
                    purpose, revision, program, contents, digest FROM issues`,
    ],
    ['changed in a part', `UPDATE issue_parts SET packed = x'00'`],
    ['robbed of a part', 'DELETE FROM issue_parts'],
    [
      'given another part',
      `INSERT OR REPLACE INTO issue_parts SELECT part_key, sha256, 1, 'none', x'00' FROM issue_parts`,
    ],
  ])('can’t be %s by plain SQL', async (_, sql) => {
    const { folder, archive } = await archiveWithIssues(randomBytes(50_000));
    archive.close();
    const plain = new Database(archivePathOf(folder));
    expect(() => plain.exec(sql)).toThrow(/never (changed|deleted|replaced)/);
    plain.close();
    const again = await openForTest(folder);
    expect((await again.check()).problems).toEqual([]);
  });

  it.each([
    ['its row', `DROP TRIGGER issues_are_never_changed; UPDATE issues SET issued_by = 'someone else'`],
    ['its row gone', `DROP TRIGGER issues_are_never_deleted; DELETE FROM issues`],
    ['a part', `DROP TRIGGER issue_parts_are_never_changed; UPDATE issue_parts SET packed = x'00'`],
    ['a part gone', `DROP TRIGGER issue_parts_are_never_deleted; DELETE FROM issue_parts`],
  ])('tells when %s was tampered with past the triggers', async (_, sql) => {
    const { folder, archive } = await archiveWithIssues(randomBytes(50_000));
    archive.close();
    const plain = new Database(archivePathOf(folder));
    const trigger = /DROP TRIGGER (\w+)/.exec(sql)?.[1] ?? '';
    const made = plain
      .prepare<[string], { sql: string }>('SELECT sql FROM sqlite_schema WHERE name = ?')
      .get(trigger)!.sql;
    plain.exec(`${sql}; ${made}`);
    plain.close();
    const again = await openForTest(folder);
    const problems = [...again.health().problems, ...(await again.check()).problems];
    expect(problems.join()).toMatch(/issue/);
  });

  it('is let go only with a note of it, and its number is not given out again', async () => {
    const { folder, archive } = await archiveWithIssues(randomBytes(50_000));
    archive.close();
    const plain = new Database(archivePathOf(folder));
    plain.exec(`INSERT INTO purged_issues SELECT issue_key, project_key, number, '2030-01-01T00:00:00Z', 'asked for'
                  FROM issues; DELETE FROM issues; DELETE FROM issue_parts;
                UPDATE tallies SET row_count = 0, digest_sum = 0 WHERE name = 'issues'`);
    expect(() => plain.exec('DELETE FROM purged_issues')).toThrow('never deleted');
    plain.close();
    const again = await openForTest(folder);
    expect((await again.check()).problems).toEqual([]);
    expect(await again.store.listIssues(project)).toEqual({ issues: [], nextNumber: 2 });
  });

  it('is found by its project', async () => {
    const { folder } = await archiveWithIssues(randomBytes(10));
    const plain = new Database(archivePathOf(folder), { readonly: true });
    for (const query of [issueQueries.all, issueQueries.one]) {
      const plan = plain
        .prepare(`EXPLAIN QUERY PLAN ${query}`)
        .all(...(query === issueQueries.all ? [''] : ['', 1]));
      expect(JSON.stringify(plan)).not.toContain('SCAN');
    }
    for (const query of [issueQueries.given, issueQueries.elsewhere]) {
      const plan = plain
        .prepare(`EXPLAIN QUERY PLAN ${query}`)
        .all(...(query === issueQueries.given ? [{ key: 1, number: 1 }] : [1]));
      // What was purged is few; the rest is found by its key.
      expect(JSON.stringify(plan).replace(/SCAN purged_issues/, '')).not.toContain('SCAN');
    }
    plain.close();
  });

  it('is not brought in under a number given out here, and nothing that came with it is kept', async () => {
    const { archive } = await archiveWithIssues(randomBytes(10), randomBytes(11));
    const { store } = archive;
    const before = await store.listIssues(project);
    const brought = { issues: [5, 2].map((number) => issueNumbered(number, randomBytes(12))), lastNumber: 9 };
    expect(await store.keepBroughtIssues(project, brought)).toBe(false);
    expect(await store.listIssues(project)).toEqual(before);
    const later = { issues: [issueNumbered(5, randomBytes(12))], lastNumber: 9 };
    expect(await store.keepBroughtIssues(project, later)).toBe(true);
    expect((await store.listIssues(project)).nextNumber).toBe(10);
    for (const [number, isKept] of [
      [7, false],
      [10, true],
    ] as const) {
      const issue = issueNumbered(number, randomBytes(9));
      expect((await store.addIssue({ projectId: project, expectedRevision: 0, issue })).ok).toBe(isKept);
    }
    expect((await archive.check()).problems).toEqual([]);
  });

  it('has its numbers given out elsewhere kept under a digest: a changed one is noticed', async () => {
    const { folder, archive } = await archiveWithIssues(randomBytes(10));
    await archive.store.keepBroughtIssues(project, { issues: [], lastNumber: 9 });
    archive.close();
    const database = new Database(archivePathOf(folder));
    database.exec('UPDATE issue_numbers SET last_number = 2');
    database.close();
    const again = await openForTest(folder);
    expect(again.health().state).toBe('damaged');
  });
});

describe('cutting bytes into parts', () => {
  it('leaves nothing out, and cuts at the same places after something was put in front', () => {
    const bytes = randomBytes(2_000_000);
    const parts = cutParts(bytes);
    expect(Buffer.concat(parts).equals(bytes)).toBe(true);
    for (const part of parts.slice(0, -1)) {
      expect(part.length).toBeGreaterThanOrEqual(4 * 1024);
      expect(part.length).toBeLessThanOrEqual(128 * 1024);
    }
    const known = new Set(parts.map((part) => Buffer.from(part).toString('hex')));
    const moved = cutParts(Buffer.concat([Buffer.from('something in front'), bytes]));
    const shared = moved.filter((part) => known.has(Buffer.from(part).toString('hex')));
    expect(shared.length).toBeGreaterThan(moved.length * 0.7);
    expect(cutParts(new Uint8Array())).toEqual([]);
  });
});
