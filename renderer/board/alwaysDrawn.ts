/** What is needed of pdf.js's operator list. */
export interface OperationList {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

/** Numbers of the operations that matter here, from pdf.js's `OPS`. */
export interface OperationCodes {
  readonly setGState: number;
  readonly beginAnnotation: number;
  readonly endAnnotation: number;
}

/**
 * Which operations must be drawn wherever one looks, because what pdf.js records about them is incomplete (tried on
 * version 6.5.438): the appearances of annotations lose operations that they depend on, and a page with soft masks
 * loses the masks. Everything is kept on such a page; of annotations, all that stands between their begin and end.
 */
export function alwaysDrawn(list: OperationList, codes: OperationCodes): (index: number) => boolean {
  let firstOfAnnotations = Infinity;
  let lastOfAnnotations = -1;
  for (let index = 0; index < list.fnArray.length; index += 1) {
    const code = list.fnArray[index];
    if (code === codes.setGState && setsSoftMask(list.argsArray[index])) return () => true;
    if (code === codes.beginAnnotation) firstOfAnnotations = Math.min(firstOfAnnotations, index);
    if (code === codes.endAnnotation) lastOfAnnotations = index;
  }
  return (index) => index >= firstOfAnnotations && index <= lastOfAnnotations;
}

/** pdf.js passes a graphics state as `[[[key, value], …]]`. */
function setsSoftMask(args: unknown): boolean {
  const entries: unknown = Array.isArray(args) ? args[0] : null;
  return (
    Array.isArray(entries) &&
    entries.some((entry) => Array.isArray(entry) && entry[0] === 'SMask' && Boolean(entry[1]))
  );
}
