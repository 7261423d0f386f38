import { type PDFDocumentProxy, RenderingCancelledException } from 'pdfjs-dist';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { useSize } from '../elevation/useSize.ts';

const zooms = [1, 1.5, 2, 3, 4] as const;
const marginPx = 24;
/** Browsers refuse canvases beyond some size; this one every current browser takes. */
const canvasPxMost = 30_000_000;

/** One page of an issued PDF, as large as its place allows, or larger and to be scrolled. */
export const LargePage = (props: {
  readonly pdf: PDFDocumentProxy;
  readonly pageNumber: number;
  readonly words: string;
  readonly onPage: (pageNumber: number) => void;
}) => {
  const { pdf, pageNumber, onPage } = props;
  const place = useRef<HTMLDivElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const { widthPx, heightPx } = useSize(place);
  const [zoom, setZoom] = useState(0);
  const [refusal, setRefusal] = useState<string | null>(null);
  const times = zooms[zoom] ?? 1;

  useEffect(() => {
    const element = holder.current;
    if (!element || widthPx === 0 || heightPx === 0) return;
    let isGone = false;
    let cancel = (): void => undefined;
    const draw = async (): Promise<void> => {
      const page = await pdf.getPage(pageNumber);
      if (isGone) return;
      const whole = page.getViewport({ scale: 1 });
      const fitted = Math.min((widthPx - marginPx) / whole.width, (heightPx - marginPx) / whole.height);
      const shown = Math.max(0.02, fitted * times);
      const wanted = shown * devicePixelRatio;
      const scale = Math.min(wanted, Math.sqrt(canvasPxMost / (whole.width * whole.height)));
      const viewport = page.getViewport({ scale });
      const canvas = document.createElement('canvas');
      canvas.width = Math.max(1, Math.round(viewport.width));
      canvas.height = Math.max(1, Math.round(viewport.height));
      canvas.style.width = `${whole.width * shown}px`;
      canvas.style.height = `${whole.height * shown}px`;
      const task = page.render({ canvas, viewport });
      cancel = () => task.cancel();
      await task.promise;
      if (isGone) return;
      element.replaceChildren(canvas);
      element.dataset['drawn'] = String(pageNumber);
      setRefusal(null);
      page.cleanup();
    };
    draw().catch((error: unknown) => {
      if (isGone || error instanceof RenderingCancelledException) return;
      setRefusal(error instanceof Error ? error.message : String(error));
    });
    return () => {
      isGone = true;
      cancel();
    };
  }, [pdf, pageNumber, widthPx, heightPx, times]);

  const onKeyDown = (event: KeyboardEvent): void => {
    const turn = { PageDown: 1, PageUp: -1 }[event.key];
    if (turn !== undefined) {
      event.preventDefault();
      onPage(Math.min(pdf.numPages, Math.max(1, pageNumber + turn)));
    } else if (event.key === '+' || event.key === '=') setZoom(Math.min(zooms.length - 1, zoom + 1));
    else if (event.key === '-') setZoom(Math.max(0, zoom - 1));
  };

  return (
    <div className="large-page">
      <div className="large-page-acts">
        <span className="quiet">
          Page {pageNumber} of {pdf.numPages}
        </span>
        <button type="button" className="word-button" disabled={zoom === 0} onClick={() => setZoom(0)}>
          Whole page
        </button>
        <button
          type="button"
          className="word-button"
          disabled={zoom === zooms.length - 1}
          onClick={() => setZoom(zoom + 1)}
        >
          Larger
        </button>
      </div>
      <section
        ref={place}
        className="large-page-place"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and takes the keys that turn its pages
        tabIndex={0}
        aria-label={`${props.words}, page ${pageNumber} of ${pdf.numPages}. Page up and page down turn pages, plus and minus change the size.`}
        onKeyDown={onKeyDown}
      >
        <div ref={holder} className="large-page-sheet" hidden={refusal !== null} />
        {refusal !== null && <p className="alert">This page can’t be drawn: {refusal}</p>}
      </section>
    </div>
  );
};
