import type { Point } from '../../geometry/point.ts';

/** A drawing as a DXF file holds it, before it has handles. Lengths in mm, angles in degrees anticlockwise from +x. */
export interface DxfDrawing {
  readonly layers: readonly DxfLayer[];
  readonly blocks: readonly DxfBlock[];
  readonly entities: readonly DxfEntity[];
  readonly extent: {
    readonly minX: number;
    readonly minY: number;
    readonly maxX: number;
    readonly maxY: number;
  };
  /** Height of the dimension text, mm of the room. */
  readonly textHeightMm: number;
}

export interface DxfLayer {
  readonly name: string;
  /** Colour index of the format (group code 62): 1 red, 2 yellow, 3 green, 4 cyan, 5 blue, 6 magenta, 7 black or white, 8 grey. */
  readonly colour: number;
  readonly lineType: 'Continuous' | 'DASHED' | 'CENTER';
  /** In hundredths of a millimetre, one of the steps that DXF knows: 13, 18, 25, 35, 50, 70. */
  readonly lineWeight: number;
}

export interface DxfBlock {
  readonly name: string;
  readonly entities: readonly DxfEntity[];
  readonly attributes: readonly DxfAttributeDefinition[];
}

export interface DxfAttributeDefinition {
  readonly tag: string;
  readonly prompt: string;
  readonly isVisible: boolean;
}

export interface DxfAttribute {
  readonly tag: string;
  readonly value: string;
  readonly isVisible: boolean;
  readonly at: Point;
  readonly heightMm: number;
  readonly angleDeg: number;
  readonly layer: string;
}

export type DxfEntity =
  | { readonly type: 'line'; readonly layer: string; readonly from: Point; readonly to: Point }
  | {
      readonly type: 'polyline';
      readonly layer: string;
      readonly points: readonly Point[];
      readonly isClosed: boolean;
    }
  | { readonly type: 'circle'; readonly layer: string; readonly centre: Point; readonly radiusMm: number }
  | {
      /** Anticlockwise from the one angle to the other. */
      readonly type: 'arc';
      readonly layer: string;
      readonly centre: Point;
      readonly radiusMm: number;
      readonly fromDeg: number;
      readonly toDeg: number;
    }
  | {
      readonly type: 'text';
      readonly layer: string;
      /** The middle of the text, or the middle of its start or end. */
      readonly at: Point;
      readonly align: 'start' | 'middle' | 'end';
      readonly heightMm: number;
      readonly angleDeg: number;
      readonly text: string;
    }
  | {
      readonly type: 'insert';
      readonly layer: string;
      readonly block: string;
      readonly at: Point;
      readonly angleDeg: number;
      readonly attributes: readonly DxfAttribute[];
    }
  | {
      /** An aligned dimension: the distance of two points, its line through a third parallel to them. */
      readonly type: 'dimension';
      readonly layer: string;
      readonly from: Point;
      readonly to: Point;
      /** Where the dimension line meets the extension line of `to`. */
      readonly lineAt: Point;
      readonly textAt: Point;
      readonly text: string;
      /** How the dimension looks, for readers that do not draw dimensions themselves. */
      readonly picture: readonly DxfEntity[];
    };
