import type { PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { paperPoint } from '../../geometry/point.ts';
import { NO_LAYER } from '../../sheet/linework.ts';
import type { TextRun } from '../../sheet/textRun.ts';

/** Title of the notes that CAD programs lay over text in their stroke (SHX) fonts, so that it can be searched. */
const STROKE_TEXT_TITLE = /\bSHX\b/i;

/** A letter's size in the height of such a note: capitals are about 0.7 of the size, and the box is a little larger. */
const SIZE_IN_BOX = 1.25;

const LONGEST_TEXT = 200;

interface Annotation {
  readonly rect?: readonly number[];
  readonly titleObj?: { readonly str?: string };
  readonly contentsObj?: { readonly str?: string };
}

/**
 * The words that stand as notes over text drawn as strokes, each as an invisible text: upright or lying as its box is.
 * All other annotations are mark-up by others and left out.
 */
export const textOfOutlines = async (page: PDFPageProxy): Promise<readonly TextRun[]> => {
  const annotations = (await page.getAnnotations({ intent: 'any' })) as readonly Annotation[];
  return annotations.flatMap(({ rect, titleObj, contentsObj }) => {
    const text = contentsObj?.str?.trim() ?? '';
    const isStrokeText = STROKE_TEXT_TITLE.test(titleObj?.str ?? '');
    if (!isStrokeText || text === '' || text.length > LONGEST_TEXT || rect?.length !== 4) return [];
    const [x0, y0, x1, y1] = rect as [number, number, number, number];
    const isUpright = y1 - y0 > x1 - x0 && text.length > 1;
    const thick = isUpright ? x1 - x0 : y1 - y0;
    const long = isUpright ? y1 - y0 : x1 - x0;
    const size = thick * SIZE_IN_BOX;
    if (!(size > 0 && long > 0)) return [];
    return [
      {
        text,
        // The centre of the letters is the centre of the box: see textCentre.
        origin: isUpright
          ? paperPoint((x0 + x1) / 2 + 0.35 * size, y0)
          : paperPoint(x0, (y0 + y1) / 2 - 0.35 * size),
        angleRad: isUpright ? Math.PI / 2 : 0,
        size,
        width: long,
        layer: NO_LAYER,
        isInvisible: true as const,
      },
    ];
  });
};
