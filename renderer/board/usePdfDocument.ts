import type { PDFDocumentProxy } from 'pdfjs-dist';
import { useCallback, useEffect, useRef, useState } from 'react';
import { openPdf, type PdfRefusal } from './openPdf.ts';

/** How far opening a PDF has come. */
export type PdfDocumentState =
  | { readonly status: 'empty' }
  /** `part` of the file read, from 0 to 1. */
  | { readonly status: 'loading'; readonly part: number; readonly cancel: () => void }
  /** Ask for the password and `submit` it; `isWrong` after a try that failed. */
  | {
      readonly status: 'password';
      readonly isWrong: boolean;
      readonly submit: (password: string) => void;
      readonly cancel: () => void;
    }
  | { readonly status: 'ready'; readonly pdf: PDFDocumentProxy }
  | { readonly status: 'failed'; readonly refusal: PdfRefusal };

/**
 * Opens a PDF from bytes and closes it again when the bytes change or the component goes.
 *
 * @param bytes the file; null for none. Keep its identity: new bytes open anew.
 * @param password tried at once where it is known already.
 */
export function usePdfDocument(bytes: Uint8Array | null, password?: string): PdfDocumentState {
  const [state, setState] = useState<PdfDocumentState>({ status: 'empty' });
  const [typed, setTyped] = useState<{ readonly bytes: Uint8Array; readonly password: string } | null>(null);
  const abort = useRef<AbortController | null>(null);
  const cancel = useCallback(() => {
    abort.current?.abort();
    setState({
      status: 'failed',
      refusal: { code: 'cancelled', message: 'Opening was cancelled.' },
    });
  }, []);
  const tried = typed !== null && typed.bytes === bytes ? typed.password : password;

  useEffect(() => {
    if (bytes === null) {
      setState({ status: 'empty' });
      return;
    }
    const mine = new AbortController();
    abort.current = mine;
    let opened: PDFDocumentProxy | null = null;
    setState({ status: 'loading', part: 0, cancel });
    void openPdf(bytes, {
      password: tried,
      signal: mine.signal,
      onProgress: (part) => {
        if (!mine.signal.aborted) setState({ status: 'loading', part, cancel });
      },
    }).then((opening) => {
      if (opening.ok) opened = opening.pdf;
      if (mine.signal.aborted) {
        void opened?.loadingTask.destroy();
        return;
      }
      setState(afterOpening(opening, cancel, (next) => setTyped({ bytes, password: next })));
    });
    return () => {
      mine.abort();
      void opened?.loadingTask.destroy();
    };
  }, [bytes, tried, cancel]);

  return state;
}

function afterOpening(
  opening: Awaited<ReturnType<typeof openPdf>>,
  cancel: () => void,
  submit: (password: string) => void,
): PdfDocumentState {
  if (opening.ok) return { status: 'ready', pdf: opening.pdf };
  const { refusal } = opening;
  if (refusal.code === 'password-needed' || refusal.code === 'password-wrong') {
    return { status: 'password', isWrong: refusal.code === 'password-wrong', submit, cancel };
  }
  return { status: 'failed', refusal };
}
