import { existsSync, globSync } from 'node:fs';
import { posix } from 'node:path';
import { findCycles } from './findCycles.ts';
import { judgeImport, type Refusal } from './judgeImport.ts';
import { layerGroups, layerOf, zoneOf } from './layerRules.ts';
import { readImports } from './readImports.ts';

/** One thing against the layers: where it is, which rule, and in words. */
export interface LayerViolation {
  /** The file, from the root, with forward slashes; for a cycle its first file or folder. */
  readonly file: string;
  /** From 1; 0 where it is about no line. */
  readonly line: number;
  readonly rule: Refusal['rule'] | 'missing-file' | 'file-cycle' | 'folder-cycle';
  readonly message: string;
}

/** All of a tree's violations, and how much was looked at. */
export interface LayerReport {
  readonly violations: readonly LayerViolation[];
  readonly files: number;
  readonly imports: number;
}

const sourcePattern = '{src,electron,renderer,tests,build}/**/*.{ts,tsx,mts}';

const listSources = (root: string): readonly string[] =>
  globSync(sourcePattern, { cwd: root })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => !path.startsWith('build/out/') && !path.includes('node_modules/'))
    .sort();

/** Cycles between folders of one group; folders of different groups cannot form one without a wrong direction. */
const findFolderCycles = (edges: ReadonlyMap<string, ReadonlySet<string>>): readonly LayerViolation[] =>
  layerGroups.flatMap((group) => {
    const graph = new Map(
      group.map((folder) => [folder, [...(edges.get(folder) ?? [])].filter((to) => group.includes(to))]),
    );
    return findCycles(graph).map((cycle) => ({
      file: `src/${cycle[0]}`,
      line: 0,
      rule: 'folder-cycle' as const,
      message: `folders import each other in a circle: ${cycle.join(' -> ')}`,
    }));
  });

/**
 * Checks every TypeScript file of a checkout against the layers.
 *
 * @param root the checkout's folder
 */
export const findLayerViolations = (root: string): LayerReport => {
  const violations: LayerViolation[] = [];
  const fileGraph = new Map<string, string[]>();
  const folderEdges = new Map<string, Set<string>>();
  const files = listSources(root);
  let imports = 0;
  for (const file of files) {
    const targets: string[] = [];
    for (const { specifier, typeOnly, line } of readImports(posix.join(root, file))) {
      imports += 1;
      const plain = specifier.replace(/\?.*$/, '');
      const isRelative = plain.startsWith('.');
      const path = posix.join(posix.dirname(file), plain);
      if (isRelative && !existsSync(posix.join(root, path))) {
        violations.push({ file, line, rule: 'missing-file', message: `"${specifier}" leads to no file` });
        continue;
      }
      const target = isRelative
        ? ({ kind: 'file', path } as const)
        : ({ kind: 'package', name: plain } as const);
      const refusal = judgeImport({ fromFile: file, typeOnly, target });
      if (refusal) violations.push({ file, line, ...refusal });
      if (!isRelative) continue;
      targets.push(path);
      const [from, to] = [zoneOf(file), zoneOf(path)];
      if (from !== undefined && to !== undefined && from !== to && layerOf(from) !== -1) {
        folderEdges.set(from, (folderEdges.get(from) ?? new Set()).add(to));
      }
    }
    fileGraph.set(file, targets);
  }
  for (const cycle of findCycles(fileGraph)) {
    violations.push({
      file: cycle[0]!,
      line: 0,
      rule: 'file-cycle',
      message: `files import each other in a circle: ${cycle.join(' -> ')}`,
    });
  }
  return { violations: [...violations, ...findFolderCycles(folderEdges)], files: files.length, imports };
};
