import type { DxfBlock, DxfDrawing, DxfLayer } from './dxfDrawing.ts';
import type { DxfTag } from './dxfTags.ts';

export interface TableHandles {
  readonly handle: () => string;
  readonly recordOf: (block: string) => string;
}

type Entry = (
  head: (type: string, subclass: string, handleCode?: number) => readonly DxfTag[],
) => readonly DxfTag[];

/** Patterns in mm: positive a dash, negative a gap. Long enough to be seen as such at 1:50. */
const lineTypes = [
  { name: 'ByBlock', words: '', pattern: [] },
  { name: 'ByLayer', words: '', pattern: [] },
  { name: 'Continuous', words: 'Solid line', pattern: [] },
  { name: 'DASHED', words: 'Dashed', pattern: [60, -35] },
  { name: 'CENTER', words: 'Chain', pattern: [160, -30, 20, -30] },
] as const;

/** The tables that every drawing must have (Autodesk's DXF reference, "TABLES section"; from memory). */
export const dxfTables = (
  drawing: DxfDrawing,
  blocks: readonly DxfBlock[],
  { handle, recordOf }: TableHandles,
): readonly DxfTag[] => {
  const table = (
    name: string,
    entries: readonly Entry[],
    extra: readonly DxfTag[] = [],
  ): readonly DxfTag[] => {
    const own = handle();
    return [
      [0, 'TABLE'],
      [2, name],
      [5, own],
      [330, '0'],
      [100, 'AcDbSymbolTable'],
      [70, entries.length],
      ...extra,
      ...entries.flatMap((entry) =>
        entry((type, subclass, handleCode = 5) => [
          [0, type],
          [handleCode, handle()],
          [330, own],
          [100, 'AcDbSymbolTableRecord'],
          [100, subclass],
        ]),
      ),
      [0, 'ENDTAB'],
    ];
  };
  const { minX, minY, maxX, maxY } = drawing.extent;
  const viewHeight = Math.max(maxY - minY, (maxX - minX) * 0.6, 1) * 1.05;
  const view: Entry = (head) => [
    ...head('VPORT', 'AcDbViewportTableRecord'),
    [2, '*ACTIVE'],
    [70, 0],
    [10, 0],
    [20, 0],
    [11, 1],
    [21, 1],
    [12, (minX + maxX) / 2],
    [22, (minY + maxY) / 2],
    [13, 0],
    [23, 0],
    [14, 100],
    [24, 100],
    [15, 100],
    [25, 100],
    [16, 0],
    [26, 0],
    [36, 1],
    [17, 0],
    [27, 0],
    [37, 0],
    [40, viewHeight],
    [41, 1.6],
    [42, 50],
    [43, 0],
    [44, 0],
    [50, 0],
    [51, 0],
    [71, 0],
    [72, 1000],
    [73, 1],
    [74, 3],
    [75, 0],
    [76, 0],
    [77, 0],
    [78, 0],
  ];
  const lineType =
    ({ name, words, pattern }: (typeof lineTypes)[number]): Entry =>
    (head) => [
      ...head('LTYPE', 'AcDbLinetypeTableRecord'),
      [2, name],
      [70, 0],
      [3, words],
      [72, 65],
      [73, pattern.length],
      [40, pattern.reduce<number>((sum, part) => sum + Math.abs(part), 0)],
      ...pattern.flatMap((part): readonly DxfTag[] => [
        [49, part],
        [74, 0],
      ]),
    ];
  const layer =
    ({ name, colour, lineType: type, lineWeight }: DxfLayer): Entry =>
    (head) => [
      ...head('LAYER', 'AcDbLayerTableRecord'),
      [2, name],
      [70, 0],
      [62, colour],
      [6, type],
      ...(name === 'Defpoints' ? ([[290, 0]] as const) : []),
      [370, lineWeight],
    ];
  const style: Entry = (head) => [
    ...head('STYLE', 'AcDbTextStyleTableRecord'),
    [2, 'Standard'],
    [70, 0],
    [40, 0],
    [41, 1],
    [50, 0],
    [71, 0],
    [42, drawing.textHeightMm],
    [3, 'arial.ttf'],
    [4, ''],
  ];
  const application: Entry = (head) => [...head('APPID', 'AcDbRegAppTableRecord'), [2, 'ACAD'], [70, 0]];
  const height = drawing.textHeightMm;
  const dimensionStyle: Entry = (head) => [
    ...head('DIMSTYLE', 'AcDbDimStyleTableRecord', 105),
    [2, 'Standard'],
    [70, 0],
    // Scale 1; arrow, gap from the origin, line spacing, overshoot, text height, tick and text gap in mm of the room.
    [40, 1],
    [41, height * 0.7],
    [42, height * 0.5],
    [43, height * 2.5],
    [44, height * 0.5],
    [140, height],
    [142, height * 0.6],
    [147, height * 0.4],
    // Text above its line and along it; metric; whole millimetres.
    [73, 0],
    [74, 0],
    [77, 1],
    [271, 0],
    [277, 2],
    [278, 46],
  ];
  const record = ({ name }: DxfBlock): readonly DxfTag[] => [
    [0, 'BLOCK_RECORD'],
    [5, recordOf(name)],
    [330, blockTable],
    [100, 'AcDbSymbolTableRecord'],
    [100, 'AcDbBlockTableRecord'],
    [2, name],
    [340, '0'],
  ];
  const blockTable = handle();
  const plain = (name: string, colour: number): DxfLayer => ({
    name,
    colour,
    lineType: 'Continuous',
    lineWeight: 25,
  });
  return [
    ...table('VPORT', [view]),
    ...table('LTYPE', lineTypes.map(lineType)),
    ...table('LAYER', [plain('0', 7), plain('Defpoints', 8), ...drawing.layers].map(layer)),
    ...table('STYLE', [style]),
    ...table('VIEW', []),
    ...table('UCS', []),
    ...table('APPID', [application]),
    ...table(
      'DIMSTYLE',
      [dimensionStyle],
      [
        [100, 'AcDbDimStyleTable'],
        [71, 1],
      ],
    ),
    [0, 'TABLE'],
    [2, 'BLOCK_RECORD'],
    [5, blockTable],
    [330, '0'],
    [100, 'AcDbSymbolTable'],
    [70, blocks.length],
    ...blocks.flatMap(record),
    [0, 'ENDTAB'],
  ];
};
