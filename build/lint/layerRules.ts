/**
 * The layers of the code, left to right, in groups: a folder may import folders of its own group (without a cycle
 * between folders) and of the groups before it, nothing after it. The names are folders of `src/`; `electron` is the
 * folder beside it.
 */
export const layerGroups: readonly (readonly string[])[] = [
  ['units', 'geometry'],
  ['sheet', 'scale', 'stock'],
  ['document', 'measure'],
  ['fitting', 'access', 'services'],
  ['quote'],
  ['issue'],
  ['app'],
  ['archive'],
  ['host', 'cli', 'electron'],
];

/** The folders of `src/` that may use Node; every other one is pure. */
const nodeFolders: readonly string[] = ['archive', 'host', 'cli'];

/** The folders outside `src/` that this checker knows. */
const outerZones: readonly string[] = ['electron', 'renderer', 'tests', 'build'];

/** The packages that pure code may use: they touch neither the DOM nor Node. */
export const purePackages: readonly string[] = [
  '@cantoo/fontkit',
  '@cantoo/pdf-lib',
  'fflate',
  'flatbush',
  'mutative',
  'robust-predicates',
  'zod',
];

/** The packages that must not reach the renderer's page, though Node code may use them. */
export const packagesOutsideThePage: readonly string[] = ['electron', 'better-sqlite3'];

/** The files of src/app whose values the page may use: both ends of the wire take a call apart in the same way. */
export const appFilesForThePage: readonly string[] = ['src/app/wire.ts'];

/** Where a file of the repository belongs: a folder of `src/`, or one of the folders beside it. */
export type Zone = string;

/**
 * The zone of a file, by its path from the root with forward slashes; `undefined` outside every zone.
 *
 * @example zoneOf('src/units/length.ts') // 'units'
 * @example zoneOf('electron/main/main.ts') // 'electron'
 */
export const zoneOf = (path: string): Zone | undefined => {
  const [first, second] = path.split('/');
  if (first === 'src') return second;
  return first !== undefined && outerZones.includes(first) ? first : undefined;
};

/** The place of a zone in the order of layers, from 0; -1 for zones that stand outside it. */
export const layerOf = (zone: Zone): number => layerGroups.findIndex((group) => group.includes(zone));

/** Whether a zone's code may know nothing of the DOM, Node or Electron. */
export const isPure = (zone: Zone): boolean =>
  layerOf(zone) !== -1 && !nodeFolders.includes(zone) && zone !== 'electron';
