import { readFileSync } from 'node:fs';
import { matchesGlob } from 'node:path';
import { describe, expect, it } from 'vitest';
import { externalPackages } from '../../build/bundle/bundles.ts';

const read = (path: string) => JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8'));
const config = read('build/package/electron-builder.json');
const files: readonly string[] = config.files;

/** Whether a file of the checkout goes into the package: the last pattern that matches it decides. */
const isPacked = (path: string): boolean => {
  const last = files.findLast((pattern) => matchesGlob(path, pattern.replace(/^!/, '')));
  return last !== undefined && !last.startsWith('!');
};

describe('the packaged program', () => {
  it('installs as dependencies what stays outside the bundles, and nothing that is bundled', () => {
    const outside = externalPackages.filter((name) => name !== 'electron' && name !== '@napi-rs/canvas');
    expect(Object.keys(read('package.json').dependencies).sort()).toEqual([...outside].sort());
  });

  it.each([
    'package.json',
    'build/out/electron/main.mjs',
    'build/out/electron/preload.cjs',
    'build/out/renderer/index.html',
  ])('has %s', (path) => expect(isPacked(path)).toBe(true));

  it.each([
    'build/out/electron/main.mjs.map',
    'build/out/renderer/assets/main.js.map',
    'build/out/cli.mjs',
    'build/out/host.mjs',
    'build/launch/start.mjs',
    'src/app/createApi.ts',
    'tests/e2e/openBrowser.ts',
    'node_modules/pdfjs-dist/web/pdf_viewer.mjs',
  ])('has no %s', (path) => expect(isPacked(path)).toBe(false));

  it('cannot be turned into a plain Node, told to load other code, or attached to', () => {
    expect(config.electronFuses).toMatchObject({
      runAsNode: false,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      grantFileProtocolExtraPrivileges: false,
    });
    expect(config.asar).toBe(true);
  });

  it('keeps native code beside the archive, from where the system can load it', () => {
    expect(config.asarUnpack).toContain('**/*.node');
  });
});
