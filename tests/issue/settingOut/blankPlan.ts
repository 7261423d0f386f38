import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';

/** A plan with nothing on it, so that every text found on a drawing over it is the drawing's own. */
export const blankPlan = async (): Promise<Uint8Array> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.addPage([2400, 1700]);
  return document.save();
};

/** The font that the app embeds. */
export const issueFont = async (): Promise<Uint8Array> => {
  const pdfjs = createRequire(import.meta.url).resolve('pdfjs-dist/package.json');
  return new Uint8Array(
    await readFile(new URL('./standard_fonts/LiberationSans-Regular.ttf', pathToFileURL(pdfjs))),
  );
};
