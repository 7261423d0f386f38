import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { findLayerViolations } from '../../../build/lint/findLayerViolations.ts';

const trees: string[] = [];

/** Writes a small tree of sources into a temporary folder. */
const plantTree = (files: Readonly<Record<string, string>>): string => {
  const root = mkdtempSync(join(tmpdir(), 'layers-'));
  trees.push(root);
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return root;
};

const rulesBroken = (files: Readonly<Record<string, string>>): readonly string[] =>
  findLayerViolations(plantTree(files)).violations.map(({ file, line, rule }) => `${file}:${line} ${rule}`);

afterEach(() => {
  for (const root of trees.splice(0)) rmSync(root, { recursive: true, force: true });
});

const leaf = 'export const a = 1;\n';

describe('the layer checker', () => {
  it('allows imports that go left, and inside a group one way', () => {
    expect(
      rulesBroken({
        'src/units/length.ts': leaf,
        'src/geometry/point.ts': "import { a } from '../units/length.ts';\nexport const b = a;\n",
        'src/app/api.ts':
          "import { z } from 'zod';\nexport * from '../geometry/point.ts';\nexport const c = z;\n",
        'src/archive/store.ts':
          "import { readFileSync } from 'node:fs';\nimport '../app/api.ts';\nreadFileSync;\n",
        'electron/main/main.ts':
          "import { app } from 'electron';\nimport '../../src/archive/store.ts';\nimport '../../src/host/host.ts';\napp;\n",
        'src/host/host.ts': leaf,
        'renderer/main.tsx':
          "import type { c } from '../src/app/api.ts';\nimport '../src/geometry/point.ts';\n",
      }),
    ).toEqual([]);
  });

  it('refuses an import to the right', () => {
    expect(
      rulesBroken({
        'src/units/length.ts': "import { a } from '../scale/scale.ts';\nexport const b = a;\n",
        'src/scale/scale.ts': leaf,
      }),
    ).toEqual(['src/units/length.ts:1 wrong-direction']);
  });

  it('refuses a type from the right too, however it is written', () => {
    expect(
      rulesBroken({
        'src/units/one.ts': "import type { A } from '../app/api.ts';\nexport type B = A;\n",
        'src/units/two.ts': "export type B = import('../app/api.ts').A;\n",
        'src/units/three.ts': "export type { A } from '../app/api.ts';\n",
        'src/units/four.ts': "export const load = () => import('../app/api.ts');\n",
        'src/units/five.ts': "import {\n  a,\n} from '../app/api.ts';\nexport const b = a;\n",
        'src/app/api.ts': `export type A = 1;\n${leaf}`,
      }).toSorted(),
    ).toEqual(
      ['five', 'four', 'one', 'three', 'two'].map((name) => `src/units/${name}.ts:1 wrong-direction`),
    );
  });

  it('refuses two folders of a group that import each other, even through different files', () => {
    expect(
      rulesBroken({
        'src/units/length.ts': "import '../geometry/point.ts';\n",
        'src/units/angle.ts': leaf,
        'src/geometry/point.ts': leaf,
        'src/geometry/arc.ts': "import '../units/angle.ts';\n",
      }),
    ).toEqual(['src/geometry:0 folder-cycle']);
  });

  it('refuses files that import each other in a circle, and names the way round', () => {
    const root = plantTree({
      'src/units/a.ts': "import type { B } from './b.ts';\nexport type A = B;\n",
      'src/units/b.ts': "import type { C } from './c.ts';\nexport type B = C;\n",
      'src/units/c.ts': "import type { A } from './a.ts';\nexport type C = A | 1;\n",
    });
    expect(findLayerViolations(root).violations).toEqual([
      {
        file: 'src/units/a.ts',
        line: 0,
        rule: 'file-cycle',
        message:
          'files import each other in a circle: src/units/a.ts -> src/units/b.ts -> src/units/c.ts -> src/units/a.ts',
      },
    ]);
  });

  it.each([
    ["import { readFileSync } from 'node:fs';\nreadFileSync;\n", 'Node with its prefix'],
    ["import { readFileSync } from 'fs';\nreadFileSync;\n", 'Node without it'],
    ["import type { Buffer } from 'node:buffer';\nexport type B = Buffer;\n", "a type of Node's"],
    ["import { app } from 'electron';\napp;\n", 'Electron'],
    ["import { useState } from 'react';\nuseState;\n", 'a package of the page'],
    ["import { Canvas } from 'fabric';\nCanvas;\n", 'a package that draws on the page'],
    ["import { getDocument } from 'pdfjs-dist';\ngetDocument;\n", 'pdf.js'],
    ['/// <reference types="node" />\n', "a reference to Node's globals"],
    ["export const load = () => import('better-sqlite3');\n", 'a native package, loaded late'],
  ])('refuses %j in a pure folder: %s', (text) => {
    expect(rulesBroken({ 'src/fitting/fit.ts': text })).toEqual(['src/fitting/fit.ts:1 impure-import']);
  });

  it('refuses in the page what only Node code may have, types included', () => {
    expect(
      rulesBroken({
        'renderer/a.ts': "import type { Store } from '../src/archive/store.ts';\nexport type A = Store;\n",
        'renderer/b.ts': "import '../src/host/host.ts';\n",
        'renderer/c.ts': "import '../src/cli/main.ts';\n",
        'renderer/d.ts': "import '../electron/preload/preload.ts';\n",
        'renderer/e.ts': "import 'node:path';\n",
        'renderer/f.ts': "import 'electron';\n",
        'src/archive/store.ts': 'export type Store = 1;\n',
        'src/host/host.ts': leaf,
        'src/cli/main.ts': leaf,
        'electron/preload/preload.ts': leaf,
      }),
    ).toEqual(['a', 'b', 'c', 'd', 'e', 'f'].map((name) => `renderer/${name}.ts:1 page-reaches-outside`));
  });

  it("lets the page have the API's types and its wire form, not its other values", () => {
    expect(
      rulesBroken({
        'renderer/good.ts': "import type { Api } from '../src/app/api.ts';\nexport type A = Api;\n",
        'renderer/bad.ts': "import { createApi } from '../src/app/api.ts';\ncreateApi;\n",
        'renderer/sly.ts': "import { type Api } from '../src/app/api.ts';\nexport type A = Api;\n",
        'renderer/wire.ts': "import { splitBytes } from '../src/app/wire.ts';\nsplitBytes;\n",
        'src/app/api.ts': 'export type Api = 1;\nexport const createApi = 1;\n',
        'src/app/wire.ts': 'export const splitBytes = 1;\n',
      }),
    ).toEqual(['renderer/bad.ts:1 app-value-in-page', 'renderer/sly.ts:1 app-value-in-page']);
  });

  it("lets the preload see the API's types and the names of channels only", () => {
    expect(
      rulesBroken({
        'electron/preload/preload.ts':
          "import { contextBridge } from 'electron';\nimport { callChannel } from '../ipc/channels.ts';\nimport type { Api } from '../../src/app/api.ts';\nimport { createApi } from '../../src/app/api.ts';\nimport '../main/main.ts';\nexport type A = Api;\ncontextBridge; createApi; callChannel;\n",
        'electron/ipc/channels.ts': 'export const callChannel = 1;\n',
        'electron/main/main.ts': leaf,
        'src/app/api.ts': 'export type Api = 1;\nexport const createApi = 1;\n',
      }),
    ).toEqual([
      'electron/preload/preload.ts:4 preload-reaches-outside',
      'electron/preload/preload.ts:5 preload-reaches-outside',
    ]);
  });

  it('keeps the product from importing tests, build or the page', () => {
    expect(
      rulesBroken({
        'src/cli/main.ts':
          "import '../../tests/x.ts';\nimport '../../build/y.ts';\nimport '../../renderer/z.ts';\n",
        'tests/x.ts': leaf,
        'build/y.ts': leaf,
        'renderer/z.ts': leaf,
      }),
    ).toEqual([1, 2, 3].map((line) => `src/cli/main.ts:${line} wrong-direction`));
  });

  it('refuses a folder of src that is no layer, and an import that leads nowhere', () => {
    expect(
      rulesBroken({
        'src/tools/a.ts': "import '../units/length.ts';\n",
        'src/units/length.ts': "import './gone.ts';\n",
      }),
    ).toEqual(['src/tools/a.ts:1 unknown-folder', 'src/units/length.ts:1 missing-file']);
  });

  it('exits with 1 and says where when run on a tree that breaks a rule', () => {
    const root = plantTree({ 'src/units/length.ts': "import 'node:fs';\n" });
    const script = fileURLToPath(new URL('../../../build/lint/checkLayers.ts', import.meta.url));
    const run = () => execFileSync(process.execPath, [script, root], { encoding: 'utf8', stdio: 'pipe' });
    expect(run).toThrow(/src\/units\/length\.ts:1 {2}impure-import/);
  });
});
