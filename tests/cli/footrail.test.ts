import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, onTestFinished } from 'vitest';
import { archivePathOf, openArchive } from '../../src/archive/openArchive.ts';
import { type Outcome, runFootrail } from '../../src/cli/runFootrail.ts';

const inProject = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-cli-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

const fileWith = (content: string | Uint8Array, name = 'input.json'): string => {
  const path = join(temporaryFolder(), name);
  writeFileSync(path, content);
  return path;
};

const json = ({ stdout }: Outcome): unknown => JSON.parse(stdout);
const now = (): string => '2027-03-15T10:20:30.000Z';

const stock = [600, 900, 1200, 1500, 1800, 2100, 2400].map((widthMm) => ({
  id: `m${widthMm}`,
  widthMm,
  support: 'standing',
}));
const betweenWalls = {
  depthMm: 700,
  straights: [{ lengthMm: 6248 }],
  ends: [{ kind: 'wall' }, { kind: 'wall' }],
  stock,
  fillerMaxMm: 150,
};
const wayIn = {
  obstacles: [{ kind: 'doorway', widthMm: 800, heightMm: 2000 }],
  pieces: [{ id: 'counter', lengthMm: 2400, widthMm: 700, heightMm: 900, massKg: 60 }],
};

/** One page without content, 200 x 100 points. */
const emptyPdf = `%PDF-1.4
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 100]>>endobj
trailer<</Root 1 0 R>>
%%EOF
`;

describe('footrail fit', () => {
  it('fills 6 248 mm between two walls with two fillers and nothing made to measure', async () => {
    const outcome = await runFootrail(['fit', fileWith(JSON.stringify(betweenWalls)), '--json']);
    expect(outcome).toMatchObject({ exitCode: 0, stderr: '' });
    const { status, alternatives } = json(outcome) as { status: string; alternatives: unknown[] };
    expect(status).toBe('optimal');
    expect(alternatives[0]).toMatchObject({ score: { madeToMeasure: 0, fillers: 2, leftoverMm: 248 } });
  });

  it('keeps to the number of alternatives asked for', async () => {
    const file = fileWith(JSON.stringify(betweenWalls));
    const outcome = await runFootrail(['fit', file, '--alternatives', '1', '--json']);
    expect((json(outcome) as { alternatives: unknown[] }).alternatives).toHaveLength(1);
  });

  it('speaks in words without --json', async () => {
    const { stdout, exitCode } = await runFootrail(['fit', fileWith(JSON.stringify(betweenWalls))]);
    expect(exitCode).toBe(0);
    expect(stdout).toContain('m2400');
    expect(stdout).toContain('filler, 124 mm');
  });

  it('ends with 1 where the answer is no', async () => {
    const impossible = {
      ...betweenWalls,
      straights: [{ lengthMm: 3000 }, { lengthMm: 3000 }],
      corners: [{ turnDeg: 90, treatment: 'corner-unit' }],
      cornerUnits: [{ id: 'small', sizeMm: 600 }],
    };
    const outcome = await runFootrail(['fit', fileWith(JSON.stringify(impossible)), '--json']);
    expect((json(outcome) as { status: string }).status).toBe('infeasible');
    expect(outcome.exitCode).toBe(1);
  });

  it('names the place in the file that is wrong', async () => {
    const file = fileWith(JSON.stringify({ ...betweenWalls, straights: [{ lengthMm: -1 }] }));
    const outcome = await runFootrail(['fit', file, '--json']);
    expect(outcome.exitCode).toBe(2);
    expect(json(outcome)).toMatchObject({ error: { path: 'straights[0].lengthMm' } });
  });
});

describe('footrail access', () => {
  it('ends with 0 where each piece passes and 1 where one does not', async () => {
    const passing = await runFootrail(['access', fileWith(JSON.stringify(wayIn)), '--json']);
    expect(passing.exitCode).toBe(0);
    expect(json(passing)).toMatchObject({ pieces: [{ id: 'counter', passes: true }] });
    const narrow = { ...wayIn, obstacles: [{ kind: 'doorway', widthMm: 650, heightMm: 800 }] };
    const refused = await runFootrail(['access', fileWith(JSON.stringify(narrow))]);
    expect(refused.exitCode).toBe(1);
    expect(refused.stdout).toContain('does not pass');
  });
});

describe('footrail read', () => {
  it('answers the sheet’s size', async () => {
    const outcome = await runFootrail(['read', fileWith(emptyPdf, 'empty.pdf'), '--json']);
    expect(outcome.exitCode).toBe(0);
    const { pages, sheet } = json(outcome) as { pages: number; sheet: { widthMm: number; heightMm: number } };
    expect(pages).toBe(1);
    // ISO 32000-1, 8.3.2.3: a unit is 1/72 inch; 200/72 x 25.4 = 70.56 mm.
    expect(sheet.widthMm).toBeCloseTo((200 / 72) * 25.4, 6);
    expect(sheet.heightMm).toBeCloseTo((100 / 72) * 25.4, 6);
  });

  it('names the page, the password or the file that is wrong', async () => {
    const file = fileWith(emptyPdf, 'empty.pdf');
    expect(json(await runFootrail(['read', file, '--page', '7', '--json']))).toMatchObject({
      error: { code: 'no-such-page', path: '--page' },
    });
    const text = fileWith('no plan at all', 'plan.pdf');
    expect(json(await runFootrail(['read', text, '--json']))).toMatchObject({
      error: { code: 'not-a-pdf', path: text },
    });
  });
});

describe('bad input', () => {
  const missing = '/nowhere/at/all.json';
  it.each([
    { args: [], code: 'command-missing', path: '' },
    { args: ['nonsense'], code: 'unknown-command', path: 'nonsense' },
    { args: ['constructor'], code: 'unknown-command', path: 'constructor' },
    { args: ['archive'], code: 'unknown-command', path: '' },
    { args: ['archive', '__proto__'], code: 'unknown-command', path: '__proto__' },
    { args: ['fit'], code: 'bad-arguments', path: 'PROBLEM.json' },
    { args: ['fit', missing], code: 'file-missing', path: missing },
    { args: ['fit', '/'], code: 'file-unreadable', path: '/' },
    { args: ['fit', 'a.json', 'b.json'], code: 'bad-arguments', path: 'b.json' },
    { args: ['fit', 'a.json', '--nonsense'], code: 'bad-arguments', path: '--nonsense' },
    { args: ['fit', 'a.json', '--alternatives', '0'], code: 'bad-arguments', path: '--alternatives' },
    { args: ['fit', 'a.json', '--alternatives'], code: 'bad-arguments', path: '--alternatives' },
    { args: ['read', 'a.pdf', '--page', '1.5'], code: 'bad-arguments', path: '--page' },
    { args: ['issue', 'project-1'], code: 'bad-arguments', path: '--out' },
    { args: ['issue', '../x', '--out', 'x'], code: 'bad-project-id', path: 'PROJECT' },
    { args: ['archive', 'list', '--archive', '/nowhere'], code: 'archive-missing', path: '--archive' },
    { args: ['archive', 'check', '--archive', '/nowhere'], code: 'archive-missing', path: '--archive' },
  ])('$args ends with 2 and the code $code', async ({ args, code, path }) => {
    const withJson = await runFootrail([...args, '--json']);
    expect(withJson).toMatchObject({ exitCode: 2, stderr: '' });
    expect(json(withJson)).toEqual({ error: { code, message: expect.any(String), path } });
    const inWords = await runFootrail(args);
    expect(inWords).toMatchObject({ exitCode: 2, stdout: '' });
    expect(inWords.stderr).toMatch(/^footrail: .+/);
  });

  it.each([
    { content: '{', code: 'malformed-json' },
    { content: Uint8Array.of(0x22, 0xff, 0x22), code: 'malformed-json' },
  ])('a file that is no JSON ends with 2', async ({ content, code }) => {
    const outcome = await runFootrail(['access', fileWith(content), '--json']);
    expect(outcome.exitCode).toBe(2);
    expect(json(outcome)).toMatchObject({ error: { code } });
  });

  it('a number too large to be read ends with 2, and says where it stands', async () => {
    const wayIn = '{"obstacles":[],"pieces":[{"id":"a","lengthMm":1e999}]}';
    const outcome = await runFootrail(['access', fileWith(wayIn), '--json']);
    expect(outcome.exitCode).toBe(2);
    expect(json(outcome)).toMatchObject({
      error: { code: 'number-too-large', path: 'pieces[0].lengthMm' },
    });
  });
});

describe('footrail archive', () => {
  const emptyArchive = async (): Promise<string> => {
    const folder = temporaryFolder();
    (await openArchive({ folder, now })).close();
    return folder;
  };

  it('lists, checks, backs up and restores', async () => {
    const folder = await emptyArchive();
    const at = ['--archive', folder, '--json'];
    expect(json(await runFootrail(['archive', 'list', ...at]))).toEqual({ total: 0, projects: [] });
    expect(json(await runFootrail(['archive', 'check', ...at]))).toMatchObject({ sound: true, problems: [] });
    const { path } = json(await runFootrail(['archive', 'backup', ...at])) as { path: string };
    expect(existsSync(path)).toBe(true);
    expect(json(await runFootrail(['archive', 'backup', ...at]))).toEqual({ path, made: false });
    const copy = join(temporaryFolder(), 'copy.sqlite');
    expect((await runFootrail(['archive', 'backup', '--out', copy, ...at])).exitCode).toBe(0);
    expect((await runFootrail(['archive', 'backup', '--out', copy, ...at])).exitCode).toBe(2);
    const { backups } = json(await runFootrail(['archive', 'backups', ...at])) as {
      backups: { name: string }[];
    };
    expect(backups).toHaveLength(1);
    const restored = await runFootrail(['archive', 'restore', backups[0]?.name ?? '', ...at]);
    expect(json(restored)).toMatchObject({ restored: backups[0]?.name, setAside: expect.any(String) });
    expect((await runFootrail(['archive', 'check', ...at])).exitCode).toBe(0);
  });

  it('ends a check of a damaged archive with 1 and what to do', async () => {
    const folder = await emptyArchive();
    await runFootrail(['archive', 'backup', '--archive', folder]);
    const bytes = readFileSync(archivePathOf(folder));
    bytes.fill(0x5a, 4096, 5000);
    writeFileSync(archivePathOf(folder), bytes);
    const outcome = await runFootrail(['archive', 'check', '--archive', folder, '--json']);
    expect(outcome.exitCode).toBe(1);
    expect(json(outcome)).toMatchObject({ sound: false });
    expect(outcome.stdout).toContain('archive restore');
  });

  it('names a backup or a project that is not there', async () => {
    const folder = await emptyArchive();
    const at = ['--archive', folder, '--json'];
    expect(json(await runFootrail(['archive', 'restore', 'none', ...at]))).toMatchObject({
      error: { code: 'backup-missing', path: 'BACKUP' },
    });
    expect(json(await runFootrail(['archive', 'show', 'project-none', ...at]))).toMatchObject({
      error: { code: 'project-missing' },
    });
  });
});

describe('footrail demo', () => {
  it('does the whole job and writes schedule, workbook and plan, then issues the same project', {
    timeout: 120_000,
  }, async () => {
    const out = temporaryFolder();
    const outcome = await runFootrail(['demo', '--out', out, '--json']);
    const answer = json(outcome) as {
      project: { projectId: string };
      runs: { status: string; pieces: number }[];
      files: { path: string; mediaType: string; byteLength: number }[];
      archive: string;
    };
    expect(outcome).toMatchObject({ exitCode: 0, stderr: '' });
    expect(answer.runs.length).toBeGreaterThan(0);
    for (const run of answer.runs) {
      expect(run.status).toBe('optimal');
      expect(run.pieces).toBeGreaterThan(0);
    }
    const mediaTypes = new Set(answer.files.map(({ mediaType }) => mediaType.split(';')[0]));
    for (const expected of [
      'application/pdf',
      'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      'text/csv',
    ])
      expect(mediaTypes).toContain(expected);
    for (const { path, byteLength } of answer.files) expect(readFileSync(path).length).toBe(byteLength);

    const { projectId } = answer.project;
    const shown = await runFootrail(['archive', 'show', projectId, '--archive', answer.archive, '--json']);
    expect(json(shown)).toMatchObject({ projectId, done: expect.any(Array) });
    const issued = join(out, 'issued');
    const issue = ['issue', projectId, '--out', issued, '--archive', answer.archive, '--json'];
    expect((await runFootrail(issue)).exitCode).toBe(0);
    expect(readdirSync(issued)).toHaveLength(answer.files.length);
    expect(json(await runFootrail(issue))).toMatchObject({ error: { code: 'file-exists', path: '--out' } });

    // A quote of its own: 21 % on what the sheets say is the net sum.
    const quoteFile = join(out, 'quote.json');
    const quoted = join(out, 'quoted');
    const quote = [
      'issue',
      projectId,
      '--out',
      quoted,
      '--archive',
      answer.archive,
      '--quote',
      quoteFile,
      '--json',
    ];
    writeFileSync(quoteFile, JSON.stringify({ number: 'Q-12', tax: { name: 'VAT', basisPoints: 2_100 } }));
    expect((await runFootrail(quote)).exitCode).toBe(0);
    const csv = readFileSync(
      join(quoted, readdirSync(quoted).find((name) => name.endsWith('-quote.csv')) ?? ''),
      'utf8',
    );
    const amountOf = (word: string) =>
      Number(new RegExp(`^,,,${word}[^,]*(?:,[^,]*){5},([0-9.]+),`, 'm').exec(csv)?.[1]);
    expect(amountOf('Net')).toBeGreaterThan(0);
    expect(Math.abs(amountOf('Total') - amountOf('Net') * 1.21)).toBeLessThanOrEqual(0.0051);
    writeFileSync(quoteFile, JSON.stringify({ tax: { name: 'VAT', basisPoints: 21.5 } }));
    expect(json(await runFootrail(quote))).toMatchObject({ error: { path: 'tax.basisPoints' } });
    const paper = [...quote.slice(0, -3), '--paper', 'a0', '--json'];
    expect(json(await runFootrail(paper))).toMatchObject({ error: { path: '--paper' } });
  });
});

describe('the program itself', () => {
  const run = (args: readonly string[], input?: { cwd: string }) =>
    spawnSync(process.execPath, [inProject('src/cli/main.ts'), ...args], { encoding: 'utf8', ...input });

  it('prints one JSON value, nothing else, and ends with the outcome’s code', () => {
    const good = run(['fit', fileWith(JSON.stringify(betweenWalls)), '--json']);
    expect(good).toMatchObject({ status: 0, stderr: '' });
    expect(JSON.parse(good.stdout)).toMatchObject({ status: 'optimal' });
    const bad = run(['nonsense', '--json']);
    expect(bad).toMatchObject({ status: 2, stderr: '' });
    expect(JSON.parse(bad.stdout)).toMatchObject({ error: { code: 'unknown-command' } });
  });

  it('takes paths relative to where it is called', () => {
    const cwd = temporaryFolder();
    mkdirSync(join(cwd, 'jobs'));
    writeFileSync(join(cwd, 'jobs', 'a.json'), JSON.stringify(wayIn));
    expect(run(['access', 'jobs/a.json', '--json'], { cwd }).status).toBe(0);
  });

  it('shows its usage', () => {
    const { stdout, status } = run(['--help']);
    expect(status).toBe(0);
    for (const command of ['read', 'fit', 'access', 'demo', 'issue', 'archive'])
      expect(stdout).toContain(`footrail ${command}`);
  });
});
