/** The part of the reader `dxf` that the tests use; it brings no types of its own. */
declare module 'dxf' {
  export class Helper {
    constructor(text: string);
    readonly parsed: {
      readonly header: { readonly insUnits?: number };
      readonly entities: readonly (Record<string, unknown> & { readonly type: string })[];
    };
    toPolylines(): {
      readonly polylines: readonly {
        readonly layer?: { readonly name: string };
        readonly vertices: readonly [number, number][];
      }[];
    };
  }
}
