declare module 'fast-formula-parser' {
  interface CellReference {
    readonly sheet: string;
    readonly row: number;
    readonly col: number;
  }
  interface RangeReference {
    readonly sheet: string;
    readonly from: { readonly row: number; readonly col: number };
    readonly to: { readonly row: number; readonly col: number };
  }
  // biome-ignore lint/style/noDefaultExport: the package has no other export
  export default class FormulaParser {
    constructor(options: {
      onCell: (reference: CellReference) => unknown;
      onRange: (reference: RangeReference) => unknown[][];
    });
    parse(formula: string, position: CellReference): unknown;
  }
}
