import type { DxfBlock, DxfDrawing, DxfEntity } from './dxfDrawing.ts';
import { attributeDefinitionTags, type EntityPlace, entityTags } from './dxfEntities.ts';
import { dxfTables, type TableHandles } from './dxfTables.ts';
import { type DxfTag, dxfLines } from './dxfTags.ts';

/** Version of the format: AC1021, that of 2007, the first whose text is UTF-8. $INSUNITS 4 is millimetres. */
const version = 'AC1021';

const section = (name: string, tags: readonly DxfTag[]): readonly DxfTag[] => [
  [0, 'SECTION'],
  [2, name],
  ...tags,
  [0, 'ENDSEC'],
];

const dimensionsOf = (entities: readonly DxfEntity[]): readonly DxfEntity[] =>
  entities.filter(({ type }) => type === 'dimension');

/**
 * Writes a drawing as an ASCII DXF file in millimetres at true size. The same drawing always gives the same text.
 *
 * Throws a RangeError for a coordinate that is not finite, and for a block or layer that is named but not there.
 */
export const writeDxf = (drawing: DxfDrawing): string => {
  let last = 0x20;
  const handle = (): string => {
    last += 1;
    return last.toString(16).toUpperCase();
  };
  const dimensions = dimensionsOf(drawing.entities);
  const names = new Map(dimensions.map((dimension, index) => [dimension, `*D${index + 1}`]));
  const dimensionBlock = (dimension: DxfEntity): string => {
    const name = names.get(dimension);
    if (name === undefined) throw new Error('A dimension within a block has no picture of its own.');
    return name;
  };
  const pictures = dimensions.map(
    (dimension): DxfBlock => ({
      name: dimensionBlock(dimension),
      entities: dimension.type === 'dimension' ? dimension.picture : [],
      attributes: [],
    }),
  );
  const blocks: readonly DxfBlock[] = [
    { name: '*Model_Space', entities: [], attributes: [] },
    { name: '*Paper_Space', entities: [], attributes: [] },
    ...drawing.blocks,
    ...pictures,
  ];
  checkNames(drawing, blocks);
  const records = new Map(blocks.map(({ name }) => [name, handle()]));
  const recordOf = (name: string): string => {
    const record = records.get(name);
    if (record === undefined) throw new RangeError(`No block "${name}"`);
    return record;
  };
  const placeIn = (name: string): EntityPlace => ({ owner: recordOf(name), handle, dimensionBlock });
  const tableHandles: TableHandles = { handle, recordOf };

  const blockTags = blocks.flatMap((block): readonly DxfTag[] => {
    const place = placeIn(block.name);
    const begins = (type: string, subclass: string): readonly DxfTag[] => [
      [0, type],
      [5, handle()],
      [330, place.owner],
      [100, 'AcDbEntity'],
      [8, '0'],
      [100, subclass],
    ];
    return [
      ...begins('BLOCK', 'AcDbBlockBegin'),
      [2, block.name],
      // 1 anonymous, 2 has attribute definitions.
      [70, block.name.startsWith('*D') ? 1 : block.attributes.length > 0 ? 2 : 0],
      [10, 0],
      [20, 0],
      [30, 0],
      [3, block.name],
      [1, ''],
      ...block.entities.flatMap((entity) => entityTags(entity, place)),
      ...block.attributes.flatMap((one) => attributeDefinitionTags(one, '0', drawing.textHeightMm, place)),
      ...begins('ENDBLK', 'AcDbBlockEnd'),
    ];
  });
  const model = placeIn('*Model_Space');
  const entities = drawing.entities.flatMap((entity) => entityTags(entity, model));
  const root = handle();
  const groups = handle();
  const tables = dxfTables(drawing, blocks, tableHandles);
  const { minX, minY, maxX, maxY } = drawing.extent;
  const point = (x: number, y: number): readonly DxfTag[] => [
    [10, x],
    [20, y],
    [30, 0],
  ];
  const header: readonly DxfTag[] = [
    [9, '$ACADVER'],
    [1, version],
    [9, '$DWGCODEPAGE'],
    [3, 'ANSI_1252'],
    [9, '$INSBASE'],
    ...point(0, 0),
    [9, '$EXTMIN'],
    ...point(minX, minY),
    [9, '$EXTMAX'],
    ...point(maxX, maxY),
    [9, '$INSUNITS'],
    [70, 4],
    [9, '$MEASUREMENT'],
    [70, 1],
    [9, '$LUNITS'],
    [70, 2],
    [9, '$LTSCALE'],
    [40, 1],
    [9, '$HANDSEED'],
    [5, (last + 1).toString(16).toUpperCase()],
  ];
  const objects: readonly DxfTag[] = [
    [0, 'DICTIONARY'],
    [5, root],
    [330, '0'],
    [100, 'AcDbDictionary'],
    [281, 1],
    [3, 'ACAD_GROUP'],
    [350, groups],
    [0, 'DICTIONARY'],
    [5, groups],
    [330, root],
    [100, 'AcDbDictionary'],
    [281, 1],
  ];
  return dxfLines([
    ...section('HEADER', header),
    ...section('CLASSES', []),
    ...section('TABLES', tables),
    ...section('BLOCKS', blockTags),
    ...section('ENTITIES', entities),
    ...section('OBJECTS', objects),
    [0, 'EOF'],
  ]);
};

const checkNames = (drawing: DxfDrawing, blocks: readonly DxfBlock[]): void => {
  const layers = new Set(['0', 'Defpoints', ...drawing.layers.map(({ name }) => name)]);
  for (const { entities } of [...blocks, drawing])
    for (const { layer } of entities) if (!layers.has(layer)) throw new RangeError(`No layer "${layer}"`);
  if (new Set(blocks.map(({ name }) => name.toLowerCase())).size < blocks.length)
    throw new RangeError('Two blocks of one name: DXF takes capitals and small letters for the same.');
};
