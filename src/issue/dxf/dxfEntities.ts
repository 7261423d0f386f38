import type { Point } from '../../geometry/point.ts';
import type { DxfAttribute, DxfEntity } from './dxfDrawing.ts';
import { type DxfTag, dxfText } from './dxfTags.ts';

/** What the entities of one block share: its record, fresh handles, and the names of the dimensions' own blocks. */
export interface EntityPlace {
  readonly owner: string;
  readonly handle: () => string;
  /** The name of the block that holds a dimension's picture. */
  readonly dimensionBlock: (dimension: DxfEntity) => string;
}

const at = (code: number, { x, y }: Point): readonly DxfTag[] => [
  [code, x],
  [code + 10, y],
  [code + 20, 0],
];

const head = (type: string, layer: string, handle: string, owner: string): readonly DxfTag[] => [
  [0, type],
  [5, handle],
  [330, owner],
  [100, 'AcDbEntity'],
  [8, layer],
];

/** Horizontal and vertical justification: 72 is 0 left, 1 centre, 2 right; 73 (74 of an attribute) is 2 for middle. */
const horizontal = { start: 0, middle: 1, end: 2 } as const;

const lettering = (text: {
  readonly at: Point;
  readonly align: keyof typeof horizontal;
  readonly heightMm: number;
  readonly angleDeg: number;
  readonly text: string;
}): readonly DxfTag[] => [
  [100, 'AcDbText'],
  ...at(10, text.at),
  [40, text.heightMm],
  [1, dxfText(text.text)],
  [50, text.angleDeg],
  [7, 'Standard'],
  [72, horizontal[text.align]],
  ...at(11, text.at),
];

const attribute = (one: DxfAttribute, handle: string, owner: string): readonly DxfTag[] => [
  ...head('ATTRIB', one.layer, handle, owner),
  ...lettering({ ...one, align: 'middle', text: one.value }),
  [100, 'AcDbAttribute'],
  [2, one.tag],
  [70, one.isVisible ? 0 : 1],
  [74, 2],
];

/** The tags of one entity. */
export const entityTags = (entity: DxfEntity, place: EntityPlace): readonly DxfTag[] => {
  const { owner, handle } = place;
  switch (entity.type) {
    case 'line':
      return [
        ...head('LINE', entity.layer, handle(), owner),
        [100, 'AcDbLine'],
        ...at(10, entity.from),
        ...at(11, entity.to),
      ];
    case 'polyline':
      return [
        ...head('LWPOLYLINE', entity.layer, handle(), owner),
        [100, 'AcDbPolyline'],
        [90, entity.points.length],
        [70, entity.isClosed ? 1 : 0],
        ...entity.points.flatMap(({ x, y }): readonly DxfTag[] => [
          [10, x],
          [20, y],
        ]),
      ];
    case 'circle':
      return [
        ...head('CIRCLE', entity.layer, handle(), owner),
        [100, 'AcDbCircle'],
        ...at(10, entity.centre),
        [40, entity.radiusMm],
      ];
    case 'arc':
      return [
        ...head('ARC', entity.layer, handle(), owner),
        [100, 'AcDbCircle'],
        ...at(10, entity.centre),
        [40, entity.radiusMm],
        [100, 'AcDbArc'],
        [50, entity.fromDeg],
        [51, entity.toDeg],
      ];
    case 'text':
      return [
        ...head('TEXT', entity.layer, handle(), owner),
        ...lettering(entity),
        [100, 'AcDbText'],
        [73, 2],
      ];
    case 'insert': {
      const own = handle();
      const isFollowed = entity.attributes.length > 0;
      return [
        ...head('INSERT', entity.layer, own, owner),
        [100, 'AcDbBlockReference'],
        ...(isFollowed ? ([[66, 1]] as const) : []),
        [2, entity.block],
        ...at(10, entity.at),
        [41, 1],
        [42, 1],
        [43, 1],
        [50, entity.angleDeg],
        ...entity.attributes.flatMap((one) => attribute(one, handle(), own)),
        ...(isFollowed ? head('SEQEND', entity.layer, handle(), own) : []),
      ];
    }
    case 'dimension':
      return [
        ...head('DIMENSION', entity.layer, handle(), owner),
        [100, 'AcDbDimension'],
        [2, place.dimensionBlock(entity)],
        ...at(10, entity.lineAt),
        ...at(11, entity.textAt),
        // 1 aligned, 32 its block belongs to it alone, 128 the text stands where it was put.
        [70, 1 + 32 + 128],
        [1, dxfText(entity.text)],
        [71, 5],
        [42, Math.hypot(entity.to.x - entity.from.x, entity.to.y - entity.from.y)],
        [3, 'Standard'],
        [100, 'AcDbAlignedDimension'],
        ...at(13, entity.from),
        ...at(14, entity.to),
      ];
  }
};

/** The tags of an attribute's definition in its block. */
export const attributeDefinitionTags = (
  definition: { readonly tag: string; readonly prompt: string; readonly isVisible: boolean },
  layer: string,
  heightMm: number,
  place: EntityPlace,
): readonly DxfTag[] => [
  ...head('ATTDEF', layer, place.handle(), place.owner),
  ...lettering({ at: { x: 0, y: 0 }, align: 'middle', heightMm, angleDeg: 0, text: definition.tag }),
  [100, 'AcDbAttributeDefinition'],
  [3, dxfText(definition.prompt)],
  [2, definition.tag],
  [70, definition.isVisible ? 0 : 1],
  [74, 2],
];
