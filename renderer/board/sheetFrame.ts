/** How a page's user space is shown: its visible box, its /Rotate and its UserUnit, as plain data. */

/** Clockwise quarter turns in which a page is shown, in degrees. */
export type QuarterTurnDeg = 0 | 90 | 180 | 270;

export interface SheetFrame {
  /** The box that is shown (CropBox within MediaBox), in unrotated user-space units: xMin, yMin, xMax, yMax. */
  readonly viewBox: readonly [number, number, number, number];
  /** The page's /Rotate, clockwise. */
  readonly rotationDeg: QuarterTurnDeg;
  /** Size of one user-space unit in 1/72 inch; 1 unless the page says otherwise. */
  readonly userUnit: number;
}

/** What {@link sheetFrameOf} needs of a pdf.js page. */
interface PageBox {
  readonly view: readonly number[];
  readonly rotate: number;
  readonly userUnit: number;
}

/** Reads the frame of a pdf.js page (`PDFPageProxy` fits). Throws where the page box is not four numbers. */
export function sheetFrameOf(page: PageBox): SheetFrame {
  const [xMin, yMin, xMax, yMax] = page.view;
  if (xMin === undefined || yMin === undefined || xMax === undefined || yMax === undefined) {
    throw new Error(`A page box has four numbers; found ${page.view.length}.`);
  }
  const turned = ((Math.round(page.rotate / 90) * 90) % 360) + 360;
  return {
    viewBox: [xMin, yMin, xMax, yMax],
    rotationDeg: (turned % 360) as QuarterTurnDeg,
    userUnit: page.userUnit > 0 ? page.userUnit : 1,
  };
}

/** Size of the sheet as shown (after /Rotate), in 1/72 inch. */
export function shownSizePoints(frame: SheetFrame): { readonly width: number; readonly height: number } {
  const [xMin, yMin, xMax, yMax] = frame.viewBox;
  const width = (xMax - xMin) * frame.userUnit;
  const height = (yMax - yMin) * frame.userUnit;
  return frame.rotationDeg % 180 === 0 ? { width, height } : { width: height, height: width };
}

/** Whether two frames show their page in the same way. */
export function isSameFrame(a: SheetFrame, b: SheetFrame): boolean {
  return (
    a.rotationDeg === b.rotationDeg &&
    a.userUnit === b.userUnit &&
    a.viewBox.every((edge, index) => edge === b.viewBox[index])
  );
}
