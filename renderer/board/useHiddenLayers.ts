import type { PDFDocumentProxy } from 'pdfjs-dist';
import { useEffect, useState } from 'react';
import { sheetLayers } from './sheetLayers.ts';

/**
 * The layers not to draw when some are switched away from what the file itself shows; undefined while none is.
 *
 * @param switches on or off by layer id; all others are as the file has them. Keep its identity while it is the same.
 */
export const useHiddenLayers = (
  pdf: PDFDocumentProxy,
  switches: Readonly<Record<string, boolean>>,
): readonly string[] | undefined => {
  const [hidden, setHidden] = useState<readonly string[]>();
  useEffect(() => {
    if (Object.keys(switches).length === 0) {
      setHidden(undefined);
      return;
    }
    let isCurrent = true;
    sheetLayers(pdf).then(
      (layers) =>
        isCurrent &&
        setHidden(
          layers.filter(({ id, isShownAtFirst }) => !(switches[id] ?? isShownAtFirst)).map(({ id }) => id),
        ),
      // Without its list of layers the sheet is drawn as the file has it.
      () => isCurrent && setHidden(undefined),
    );
    return () => {
      isCurrent = false;
    };
  }, [pdf, switches]);
  return hidden;
};
