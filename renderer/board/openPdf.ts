import {
  getDocument,
  InvalidPDFException,
  PasswordException,
  PasswordResponses,
  type PDFDocumentProxy,
  VerbosityLevel,
} from 'pdfjs-dist';
import { pdfjsDataUrls, pointPdfjsAtWorkers } from './pdfjsAssets.ts';

/** Why a PDF could not be opened, and what to do about it. */
export interface PdfRefusal {
  readonly code:
    | 'not-a-pdf'
    | 'damaged-pdf'
    | 'password-needed'
    | 'password-wrong'
    | 'no-pages'
    | 'cancelled';
  readonly message: string;
}

export type PdfOpening =
  | { readonly ok: true; readonly pdf: PDFDocumentProxy }
  | { readonly ok: false; readonly refusal: PdfRefusal };

interface OpenPdfOptions {
  readonly password?: string | undefined;
  /** Part of the file read, from 0 to 1. */
  readonly onProgress?: ((part: number) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
}

/** A PDF header may lie anywhere in the first 1024 bytes (ISO 32000-1 annex H, note 13, as readers accept it). */
const HEADER_WITHIN_BYTES = 1024;

/**
 * A scan beyond this is made smaller, in pdf.js's worker, before it is drawn: 64 million pixels, 200 dots to the inch on
 * an A0 sheet. Whole, one of 10,000 x 14,000 takes half a gigabyte and holds the window up for seconds.
 */
const LARGEST_PICTURE_BYTES = 4 * 64 * 1024 * 1024;

/**
 * Opens a PDF from its bytes with pdf.js: no script runs, no code is built from strings, nothing is fetched from
 * outside. The bytes are copied, never taken. A PDF that can't be used comes back as a refusal; close an opened one
 * with `pdf.loadingTask.destroy()`.
 */
export async function openPdf(bytes: Uint8Array, options: OpenPdfOptions = {}): Promise<PdfOpening> {
  if (options.signal?.aborted) return refused('cancelled', 'Opening was cancelled.');
  if (!hasPdfHeader(bytes)) {
    return refused('not-a-pdf', 'This file is not a PDF. Choose the plan as a PDF file.');
  }
  pointPdfjsAtWorkers();
  const task = getDocument({
    data: bytes.slice(),
    ...(options.password === undefined ? {} : { password: options.password }),
    ...pdfjsDataUrls(),
    enableXfa: false,
    enableHWA: true,
    stopAtErrors: false,
    canvasMaxAreaInBytes: LARGEST_PICTURE_BYTES,
    verbosity: VerbosityLevel.ERRORS,
  });
  const { onProgress, signal } = options;
  if (onProgress) {
    task.onProgress = ({ loaded, total }: { loaded: number; total: number }) =>
      onProgress(total > 0 ? Math.min(1, loaded / total) : 0);
  }
  const cancel = (): void => void task.destroy();
  signal?.addEventListener('abort', cancel, { once: true });
  try {
    const pdf = await task.promise;
    const isCancelled = signal?.aborted ?? false;
    if (isCancelled || pdf.numPages === 0) {
      await task.destroy();
      return isCancelled
        ? refused('cancelled', 'Opening was cancelled.')
        : refused('no-pages', 'This PDF has no pages. Ask for the plan to be exported again.');
    }
    // A broken page tree shows only when a page is asked for.
    await pdf.getPage(1);
    return { ok: true, pdf };
  } catch (error) {
    await task.destroy();
    return { ok: false, refusal: refusalFor(error, signal?.aborted ?? false) };
  } finally {
    signal?.removeEventListener('abort', cancel);
  }
}

function refusalFor(error: unknown, isCancelled: boolean): PdfRefusal {
  if (isCancelled) return { code: 'cancelled', message: 'Opening was cancelled.' };
  if (error instanceof PasswordException) {
    return error.code === PasswordResponses.INCORRECT_PASSWORD
      ? { code: 'password-wrong', message: 'That password does not open this PDF. Try again.' }
      : { code: 'password-needed', message: 'This PDF is locked. Type its password to open it.' };
  }
  const reason = error instanceof Error ? error.message : String(error);
  const detail = error instanceof InvalidPDFException ? '' : ` (${reason})`;
  return {
    code: 'damaged-pdf',
    message: `This PDF is damaged and can't be read${detail}. Ask for the plan to be exported again.`,
  };
}

const refused = (code: PdfRefusal['code'], message: string): PdfOpening => ({
  ok: false,
  refusal: { code, message },
});

/** Whether `%PDF-` stands near the start, where readers accept it. */
export function hasPdfHeader(bytes: Uint8Array): boolean {
  const mark = [0x25, 0x50, 0x44, 0x46, 0x2d];
  const last = Math.min(bytes.length, HEADER_WITHIN_BYTES) - mark.length;
  for (let start = 0; start <= last; start += 1) {
    if (mark.every((byte, offset) => bytes[start + offset] === byte)) return true;
  }
  return false;
}
