import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { archivePathOf, openArchive } from '../../src/archive/openArchive.ts';
import { type Outcome, runFootrail } from '../../src/cli/runFootrail.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { type Edited, edit, newProject, projectIdOf } from '../archive/editedSteps.ts';

const now = (): string => '2027-03-15T10:20:30.000Z';
const json = <Value>({ stdout }: Outcome): Value => JSON.parse(stdout) as Value;
const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-cli-salvage-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

/** One page with a line of text in a standard font (ISO 32000-1, 9.6.2.2). */
const planSaying = (text: string): string => {
  const content = `BT /F1 12 Tf 10 50 Td (${text}) Tj ET`;
  return `%PDF-1.4
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 100]/Contents 4 0 R/Resources<</Font<</F1<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>>>>>>>endobj
4 0 obj<</Length ${content.length}>>stream
${content}
endstream endobj
trailer<</Root 1 0 R>>
%%EOF
`;
};

describe('footrail archive salvage', () => {
  it('brings every whole project of a damaged archive, with its changes, into a new one', async () => {
    const folder = temporaryFolder();
    const archive = await openArchive({ folder, now });
    await archive.store.putStockRange(demoRange, now());
    const edited: Edited[] = [];
    for (const number of [1, 2, 3, 4])
      edited.push(
        await edit(
          archive.store,
          await newProject(archive.store, projectIdOf(number), `Bar ${number}`),
          12,
          number,
        ),
      );
    archive.close();
    const path = archivePathOf(folder);
    const bytes = readFileSync(path);
    // A letter inside the last document in the file: one project is no longer as it was written.
    bytes[bytes.lastIndexOf('"schemaVersion":1,"job":{"name":') + 2] = 'S'.charCodeAt(0);
    writeFileSync(path, bytes);

    const out = join(temporaryFolder(), 'new');
    const salvaged = await runFootrail(['archive', 'salvage', '--archive', folder, '--out', out, '--json']);
    expect(salvaged.exitCode).toBe(1);
    const report = json<{
      projects: readonly { projectId: string; isSaved: boolean; lost: readonly string[] }[];
      lost: readonly string[];
      problems: readonly string[];
    }>(salvaged);
    expect(report).toMatchObject({ problems: [], lost: [] });
    const [lost, ...more] = report.projects.filter(({ isSaved }) => !isSaved);
    expect(more).toEqual([]);
    expect(lost?.lost.join()).toContain('is not as it was written');
    expect(readFileSync(path).equals(bytes)).toBe(true);

    const fresh = await openArchive({ folder: out, now });
    onTestFinished(() => fresh.close());
    const saved = report.projects.filter(({ isSaved }) => isSaved);
    expect(saved).toHaveLength(3);
    for (const { projectId } of saved) {
      const due = edited.find((one) => one.projectId === projectId)!;
      expect(await fresh.store.loadProject(due.projectId)).toMatchObject({
        revision: due.revision,
        document: due.document,
      });
    }
    const again = await runFootrail(['archive', 'salvage', '--archive', folder, '--out', out, '--json']);
    expect(json<{ error: { code: string } }>(again).error.code).toBe('archive-exists');
  });
});

describe('footrail archive take-in', () => {
  it('takes in a folder of plans, says why a file is none, and makes no second project of the same file', async () => {
    const plans = temporaryFolder();
    mkdirSync(join(plans, '2019'));
    writeFileSync(join(plans, 'Weir Street.pdf'), planSaying('MEZZANINE'));
    writeFileSync(join(plans, '2019', 'Old Wharf.PDF'), planSaying('CELLAR'));
    writeFileSync(join(plans, 'letter.pdf'), 'Dear Sirs');
    writeFileSync(join(plans, 'notes.txt'), 'none of ours');
    const folder = temporaryFolder();
    const takeIn = async () => {
      const outcome = await runFootrail(['archive', 'take-in', plans, '--archive', folder, '--json']);
      return {
        exitCode: outcome.exitCode,
        ...json<{ of: number; stopped: boolean; files: readonly { path: string; outcome: string }[] }>(
          outcome,
        ),
      };
    };
    const first = await takeIn();
    expect(first).toMatchObject({ exitCode: 1, of: 3, stopped: false });
    expect(first.files.map(({ path, outcome }) => [path.slice(plans.length + 1), outcome]).sort()).toEqual([
      [join('2019', 'Old Wharf.PDF'), 'made'],
      ['Weir Street.pdf', 'made'],
      ['letter.pdf', 'refused'],
    ]);
    expect((await takeIn()).files.map(({ outcome }) => outcome).sort()).toEqual([
      'known',
      'known',
      'refused',
    ]);
    const found = await runFootrail(['archive', 'search', 'mezz', '--archive', folder, '--json']);
    expect(json<{ total: number }>(found).total).toBe(1);
  });
});
