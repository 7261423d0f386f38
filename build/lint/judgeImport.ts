import { isBuiltin } from 'node:module';
import {
  appFilesForThePage,
  isPure,
  layerGroups,
  layerOf,
  packagesOutsideThePage,
  purePackages,
  type Zone,
  zoneOf,
} from './layerRules.ts';

/** One import from a file of a known zone, to a file of the repository or to a package. */
export interface ImportToJudge {
  readonly fromFile: string;
  readonly typeOnly: boolean;
  readonly target:
    | { readonly kind: 'file'; readonly path: string }
    | { readonly kind: 'package'; readonly name: string };
}

/** Why an import is against the layers, as a kebab-case rule and a sentence; `undefined` where it is allowed. */
export interface Refusal {
  readonly rule:
    | 'wrong-direction'
    | 'impure-import'
    | 'page-reaches-outside'
    | 'app-value-in-page'
    | 'preload-reaches-outside'
    | 'unknown-folder';
  readonly message: string;
}

/** The name of a package in an import: `zod/mini` is `zod`, `@scope/name/x` is `@scope/name`. */
export const packageName = (specifier: string): string =>
  specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');

const isNodeModule = (name: string): boolean =>
  name.startsWith('node:') || name === 'node' || isBuiltin(name);

const judgePackage = (zone: Zone, name: string): Refusal | undefined => {
  if (isPure(zone) && !purePackages.includes(packageName(name))) {
    const what = isNodeModule(name) ? 'Node' : `the package "${packageName(name)}"`;
    return {
      rule: 'impure-import',
      message: `src/${zone} is pure and may not use ${what}; packages allowed there are listed in build/lint/layerRules.ts`,
    };
  }
  if (zone === 'renderer' && (isNodeModule(name) || packagesOutsideThePage.includes(packageName(name)))) {
    return { rule: 'page-reaches-outside', message: `the page may not use "${name}"` };
  }
  return undefined;
};

const judgePage = (zone: Zone, path: string, typeOnly: boolean): Refusal | undefined => {
  if (zone === 'renderer' || appFilesForThePage.includes(path)) return undefined;
  if (zone === 'app' && !typeOnly) {
    return {
      rule: 'app-value-in-page',
      message: 'the page may import only types from src/app ("import type")',
    };
  }
  if (!isPure(zone)) {
    return {
      rule: 'page-reaches-outside',
      message: `the page may not import ${zone}, not even a type`,
    };
  }
  return undefined;
};

const judgeLayers = (from: Zone, to: Zone): Refusal | undefined => {
  if (layerOf(to) !== -1 && layerOf(to) <= layerOf(from)) return undefined;
  return {
    rule: 'wrong-direction',
    message: `${from} may not import ${to}; allowed are ${layerGroups
      .slice(0, layerOf(from) + 1)
      .flat()
      .join(', ')}`,
  };
};

const judgePreload = (path: string, typeOnly: boolean): Refusal | undefined =>
  (zoneOf(path) === 'app' && typeOnly) ||
  path.startsWith('electron/preload/') ||
  path.startsWith('electron/ipc/')
    ? undefined
    : {
        rule: 'preload-reaches-outside',
        message: "the preload may import only types from src/app, and electron/ipc's names of channels",
      };

/** Judges one import by the rules of the layers. */
export const judgeImport = ({ fromFile, typeOnly, target }: ImportToJudge): Refusal | undefined => {
  const from = zoneOf(fromFile);
  if (from === undefined || from === 'tests') return undefined;
  if (from !== 'renderer' && from !== 'build' && layerOf(from) === -1) {
    return { rule: 'unknown-folder', message: `src/${from} is not a layer; see build/lint/layerRules.ts` };
  }
  if (target.kind === 'package') return judgePackage(from, target.name);
  if (fromFile.startsWith('electron/preload/')) return judgePreload(target.path, typeOnly);
  const to = zoneOf(target.path);
  if (to === undefined) return undefined;
  if (from === 'renderer') return judgePage(to, target.path, typeOnly);
  if (from === 'build') {
    return to === 'build'
      ? undefined
      : {
          rule: 'wrong-direction',
          message: `build may not import ${to}; the product does not depend on it either`,
        };
  }
  return from === to ? undefined : judgeLayers(from, to);
};
