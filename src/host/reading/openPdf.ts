import { createRequire } from 'node:module';
import { dirname, join, sep } from 'node:path';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { ReadingError } from './readingFailure.ts';

/** Pictures above this many pixels are not decoded: their content is not needed, and would take a gigabyte. */
const MOST_PICTURE_PIXELS = 2 ** 26;

/** A PDF header may stand behind some junk, within the first KiB (ISO 32000-1, Annex H, note 13; from memory). */
const HEADER_WITHIN_BYTES = 1024;

const libraryFolder = (): string =>
  dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));

/**
 * Opens PDF bytes. Character maps and standard fonts come from the installed library; nothing is fetched, and scripts
 * in the file are never run (they would need pdf.js's sandbox, which is not loaded).
 *
 * @param bytes are handed over: the caller keeps a copy where it needs them again.
 * @throws ReadingError `password-needed`, `password-wrong`, `not-a-pdf`, `damaged`, `no-pages`.
 */
export const openPdf = async (
  bytes: Uint8Array,
  password: string | undefined,
  onProgress?: (done: number, of: number) => void,
): Promise<PDFDocumentProxy> => {
  if (bytes.byteLength === 0) throw new ReadingError('not-a-pdf', 'The file is empty.');
  const hasHeader = hasPdfHeader(bytes);
  const folder = libraryFolder();
  const task = getDocument({
    data: bytes,
    ...(password === undefined ? {} : { password }),
    cMapUrl: join(folder, 'cmaps') + sep,
    standardFontDataUrl: join(folder, 'standard_fonts') + sep,
    disableFontFace: false,
    useSystemFonts: false,
    useWorkerFetch: false,
    useWasm: false,
    enableXfa: false,
    maxImageSize: MOST_PICTURE_PIXELS,
    verbosity: 0,
  });
  if (onProgress) {
    task.onProgress = ({ loaded, total }: { loaded: number; total: number }) => onProgress(loaded, total);
  }
  let document: PDFDocumentProxy;
  try {
    document = await task.promise;
  } catch (error) {
    throw openingError(error, password, hasHeader);
  }
  if (document.numPages < 1) throw new ReadingError('no-pages', 'The PDF has no pages.');
  return document;
};

const openingError = (error: unknown, password: string | undefined, hasHeader: boolean): ReadingError => {
  const { name, message } = error as Error;
  if (name === 'PasswordException') {
    return password === undefined || password === ''
      ? new ReadingError('password-needed', 'The PDF is locked: type its password to open it.')
      : new ReadingError('password-wrong', 'That is not the password of this PDF.');
  }
  if (!hasHeader) return new ReadingError('not-a-pdf', 'The file is not a PDF.');
  return new ReadingError('damaged', `The PDF is damaged and cannot be opened (${message}).`);
};

const hasPdfHeader = (bytes: Uint8Array): boolean =>
  Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.byteLength, HEADER_WITHIN_BYTES)).includes(
    '%PDF-',
  );
