import { type PDFContext, PDFDocument, PDFName, type PDFPage } from '@cantoo/pdf-lib';
import { openPdf } from '../../src/host/reading/openPdf.ts';
import { readPage } from '../../src/host/reading/readPage.ts';

/** A page with the given content stream, and whatever `adjust` adds to it. */
export const pdfWithContent = async (
  content: string,
  adjust: (page: PDFPage, context: PDFContext) => void = () => undefined,
): Promise<Uint8Array> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  const page = document.addPage([400, 300]);
  page.node.set(PDFName.of('Contents'), document.context.register(document.context.stream(content)));
  adjust(page, document.context);
  return document.save({ useObjectStreams: false });
};

/** Reads the first page of PDF bytes in this thread. */
export const readFirstPage = async (bytes: Uint8Array, layers: Readonly<Record<string, boolean>> = {}) => {
  const document = await openPdf(bytes.slice(), undefined);
  try {
    return await readPage(document, { page: 1, bytes, layers });
  } finally {
    await document.loadingTask.destroy();
  }
};
