import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist';
import { useEffect, useState } from 'react';

/** One page of an opened PDF, or why there is none. */
export type PdfPageState =
  | { readonly status: 'loading' }
  | { readonly status: 'ready'; readonly page: PDFPageProxy }
  | { readonly status: 'failed'; readonly code: 'page-cannot-be-read'; readonly message: string };

/**
 * Gets a page of an opened PDF.
 * @param pageNumber counted from 1.
 */
export function usePdfPage(pdf: PDFDocumentProxy | null, pageNumber: number): PdfPageState {
  const [state, setState] = useState<PdfPageState & { readonly pdf?: PDFDocumentProxy | null }>({
    status: 'loading',
  });
  useEffect(() => {
    let isCurrent = true;
    setState({ status: 'loading' });
    pdf?.getPage(pageNumber).then(
      (page) => isCurrent && setState({ status: 'ready', page, pdf }),
      (error: unknown) => {
        if (!isCurrent) return;
        const reason = error instanceof Error ? error.message : String(error);
        setState({
          status: 'failed',
          code: 'page-cannot-be-read',
          message: `Page ${pageNumber} can't be read: ${reason}. Choose another page or ask for the plan again.`,
          pdf,
        });
      },
    );
    return () => {
      isCurrent = false;
    };
  }, [pdf, pageNumber]);
  // The page of a document that has been closed must not be shown for a moment.
  return state.status === 'ready' && (state.pdf !== pdf || state.page.pageNumber !== pageNumber)
    ? { status: 'loading' }
    : state;
}
