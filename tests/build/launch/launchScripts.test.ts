import { execFile, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readlinkSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterEach, describe, expect, it } from 'vitest';
import { countTests, summarise } from '../../../build/launch/countTests.mjs';
import { matchesLock } from '../../../build/launch/ensureInstalled.mjs';
import { findElectronBinary, findObstacle } from '../../../build/launch/findDesktop.mjs';
import { linkCommand } from '../../../build/launch/linkCommand.mjs';

const launchFolder = fileURLToPath(new URL('../../../build/launch', import.meta.url));
const folders: string[] = [];

/** A checkout that has the launch scripts and nothing else. */
const bareCheckout = (): string => {
  const root = mkdtempSync(join(tmpdir(), 'footrail-checkout-'));
  folders.push(root);
  cpSync(launchFolder, join(root, 'build', 'launch'), { recursive: true });
  writeFileSync(join(root, 'package-lock.json'), '{"packages":{}}');
  return root;
};

/** Makes the scripts of a checkout take every Node for too old. */
const askForNewerNode = (root: string): void => {
  const path = join(root, 'build', 'launch', 'projectPaths.mjs');
  const text = readFileSync(path, 'utf8');
  const asking = text.replace('neededNodeMajor = 24', 'neededNodeMajor = 999');
  expect(asking).not.toBe(text);
  writeFileSync(path, asking);
};

const plantBundledNode = (root: string, script: string): void => {
  const folder = join(root, 'node_modules', 'node', 'bin');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'node'), `#!/bin/sh\n${script}\n`);
  chmodSync(join(folder, 'node'), 0o755);
};

const runFootrail = (root: string, ...args: string[]) =>
  spawnSync(process.execPath, [join(root, 'build', 'launch', 'footrail.mjs'), ...args], { encoding: 'utf8' });

afterEach(() => {
  for (const root of folders.splice(0)) rmSync(root, { recursive: true, force: true });
});

describe.skipIf(process.platform === 'win32')('the footrail command', () => {
  it('starts itself again on the bundled Node where its own is too old, with arguments, output and exit code', () => {
    const root = bareCheckout();
    askForNewerNode(root);
    plantBundledNode(root, 'echo "again: $*"; exit 7');
    const { stdout, status } = runFootrail(root, 'fit', 'a problem.json', '--json');
    expect(stdout).toBe(
      `again: ${join(root, 'build', 'launch', 'footrail.mjs')} fit a problem.json --json\n`,
    );
    expect(status).toBe(7);
  });

  it('says what to do where there is no Node that can run it', () => {
    const root = bareCheckout();
    askForNewerNode(root);
    const { stdout, stderr, status } = runFootrail(root, 'demo');
    expect([stdout, status]).toEqual(['', 2]);
    expect(stderr).toMatch(/needs Node 999.*npm ci.*npm rebuild node/s);
  });

  it('says what to do where it was never built and cannot be', () => {
    const { stdout, stderr, status } = runFootrail(bareCheckout(), 'demo');
    expect([stdout, status]).toEqual(['', 2]);
    expect(stderr).toContain('build/out/cli.mjs is missing. Run "npm ci"');
  });

  it('runs what was built where the bundler is not installed', () => {
    const root = bareCheckout();
    mkdirSync(join(root, 'build', 'out'));
    writeFileSync(join(root, 'build', 'out', 'cli.mjs'), 'console.log(process.argv.slice(2).join(","));');
    expect(runFootrail(root, 'read', 'plan.pdf').stdout).toBe('read,plan.pdf\n');
  });
});

describe('building', () => {
  /** A checkout whose bundler notes when it runs, and takes its time. */
  const checkoutWithSlowBundler = (): string => {
    const root = bareCheckout();
    mkdirSync(join(root, 'node_modules', 'esbuild'), { recursive: true });
    writeFileSync(join(root, 'node_modules', 'esbuild', 'package.json'), '{}');
    mkdirSync(join(root, 'build', 'bundle'));
    writeFileSync(
      join(root, 'build', 'bundle', 'bundle.ts'),
      `import { appendFileSync, writeFileSync } from 'node:fs';
      appendFileSync('build/out/log', 'begin ');
      await new Promise((resolve) => setTimeout(resolve, 300));
      writeFileSync('build/out/cli.mjs', 'console.log("built");');
      appendFileSync('build/out/log', 'end ');`,
    );
    mkdirSync(join(root, 'src'));
    writeFileSync(join(root, 'src', 'a.ts'), '1');
    return root;
  };
  const log = (root: string) => readFileSync(join(root, 'build', 'out', 'log'), 'utf8');

  it('happens once while nothing changed, and again when a source did, with the answer alone on stdout', () => {
    const root = checkoutWithSlowBundler();
    expect(runFootrail(root).stdout).toBe('built\n');
    expect(runFootrail(root).stdout).toBe('built\n');
    expect(log(root)).toBe('begin end ');
    writeFileSync(join(root, 'src', 'a.ts'), '2');
    expect(runFootrail(root).stdout).toBe('built\n');
    expect(log(root)).toBe('begin end begin end ');
  });

  it('happens once for two that start together', async () => {
    const root = checkoutWithSlowBundler();
    const script = join(root, 'build', 'launch', 'footrail.mjs');
    const run = promisify(execFile);
    const [one, other] = await Promise.all([
      run(process.execPath, [script]),
      run(process.execPath, [script]),
    ]);
    expect([one.stdout, other.stdout]).toEqual(['built\n', 'built\n']);
    expect(log(root)).toBe('begin end ');
  });

  it('does not wait for one that was killed', () => {
    const root = checkoutWithSlowBundler();
    mkdirSync(join(root, 'build', 'out'));
    const gone = spawnSync(process.execPath, ['-e', '']).pid;
    writeFileSync(join(root, 'build', 'out', 'lock'), String(gone));
    expect(runFootrail(root).stdout).toBe('built\n');
  });

  it('says so when it fails, and tries again the next time', () => {
    const root = checkoutWithSlowBundler();
    const bundler = join(root, 'build', 'bundle', 'bundle.ts');
    const text = readFileSync(bundler, 'utf8');
    writeFileSync(bundler, 'process.exitCode = 1;');
    const failed = runFootrail(root);
    expect([failed.stdout, failed.status]).toEqual(['', 2]);
    expect(failed.stderr).toContain('Building node failed');
    writeFileSync(bundler, text);
    expect(runFootrail(root).stdout).toBe('built\n');
  });
});

describe('the install script', () => {
  it.skipIf(process.platform === 'win32')(
    'links the command beside those of the dependencies, again and again',
    () => {
      const root = bareCheckout();
      mkdirSync(join(root, 'node_modules'));
      const link = join(root, 'node_modules', '.bin', 'footrail');
      for (let time = 0; time < 2; time += 1) {
        expect(linkCommand(root)).toBe(true);
        expect(readlinkSync(link)).toBe('../../build/launch/footrail.mjs');
      }
      const { stderr, status } = spawnSync(link, ['demo'], { encoding: 'utf8' });
      expect(stderr).toContain('build/out/cli.mjs is missing');
      expect(status).toBe(2);
    },
  );

  it('writes a command file on Windows', () => {
    const root = bareCheckout();
    mkdirSync(join(root, 'node_modules'));
    expect(linkCommand(root, 'win32')).toBe(true);
    expect(readFileSync(join(root, 'node_modules', '.bin', 'footrail.cmd'), 'utf8')).toContain(
      'node "%~dp0\\..\\..\\build\\launch\\footrail.mjs" %*',
    );
  });

  it('does nothing and says so where development dependencies are left out', () => {
    const root = bareCheckout();
    mkdirSync(join(root, 'node_modules'));
    const script = join(root, 'build', 'launch', 'postinstall.mjs');
    const { stdout, status } = spawnSync(process.execPath, [script], { encoding: 'utf8' });
    expect(status).toBe(0);
    expect(stdout).toContain('development dependencies are left out');
    expect(existsSync(join(root, 'build', 'out'))).toBe(false);
  });
});

describe('what is installed', () => {
  const locked = {
    '': {},
    'node_modules/a': { version: '1.0.0', integrity: 'sha512-a' },
    'node_modules/b': { version: '2.0.0', integrity: 'sha512-b', optional: true },
  };

  it('agrees with the lock file, other platforms’ optional packages aside', () => {
    expect(matchesLock(locked, { 'node_modules/a': { version: '1.0.0', integrity: 'sha512-a' } })).toBe(true);
  });

  it.each([
    ['a package is missing', {}],
    ['a version differs', { 'node_modules/a': { version: '1.0.1', integrity: 'sha512-a' } }],
    ['its content differs', { 'node_modules/a': { version: '1.0.0', integrity: 'sha512-x' } }],
    [
      'an optional one differs',
      {
        'node_modules/a': locked['node_modules/a'],
        'node_modules/b': { version: '1.9.0', integrity: 'sha512-b' },
      },
    ],
  ])('disagrees where %s', (_name, installed) => {
    expect(matchesLock(locked, installed)).toBe(false);
  });
});

describe('the count of tests', () => {
  const file = (status: string, ...tests: string[]) => ({
    status,
    assertionResults: tests.map((one) => ({ status: one })),
  });
  const report = (
    numPassedTests: number,
    numFailedTests: number,
    ...testResults: ReturnType<typeof file>[]
  ) => ({
    testResults,
    numPassedTests,
    numFailedTests,
    numPendingTests: 1,
    numTodoTests: 0,
  });

  it('adds up what passed, failed and was skipped', () => {
    expect(countTests(() => report(5, 2, file('failed', 'passed', 'failed'), file('passed')), 1)).toEqual({
      passed: 5,
      failed: 2,
      skipped: 1,
    });
  });

  it('counts a file that could not be loaded', () => {
    expect(countTests(() => report(5, 0, file('failed')), 1).failed).toBe(1);
  });

  it('counts a run that ended badly though every test passed', () => {
    expect(countTests(() => report(5, 0, file('passed', 'passed')), 1).failed).toBe(1);
  });

  it('counts a run that left no report', () => {
    const noReport = () => {
      throw new Error('there is no report');
    };
    expect(countTests(noReport, 0)).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });

  it('is shown in one line', () => {
    expect(summarise({ name: 'layers', passed: 0, failed: 1, skipped: 0 })).toBe(
      'FAILED layers: 0 passed, 1 failed',
    );
  });
});

describe('the desktop window', () => {
  it('knows when no window can open, and why', () => {
    expect(findObstacle('linux', {}, 1000)).toBe('there is no display');
    expect(findObstacle('linux', { DISPLAY: ':0' }, 0)).toContain('root');
    expect(findObstacle('linux', { WAYLAND_DISPLAY: 'wayland-0' }, 1000)).toBeUndefined();
    expect(findObstacle('darwin', {}, 501)).toBeUndefined();
    expect(findObstacle('win32', {}, undefined)).toBeUndefined();
  });

  it('finds Electron’s binary only where it was fetched', () => {
    const root = bareCheckout();
    expect(findElectronBinary(root)).toBeUndefined();
    writeFileSync(join(root, 'path.txt'), 'electron');
    expect(findElectronBinary(root)).toBeUndefined();
    mkdirSync(join(root, 'dist'));
    writeFileSync(join(root, 'dist', 'electron'), '');
    expect(findElectronBinary(root)).toBe(join(root, 'dist', 'electron'));
  });
});
