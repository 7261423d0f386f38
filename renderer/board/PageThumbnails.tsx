import { type PDFDocumentProxy, RenderingCancelledException } from 'pdfjs-dist';
import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import './PageThumbnails.css';

export interface PageThumbnailsProps {
  readonly pdf: PDFDocumentProxy;
  /** Counted from 1; null where none is chosen yet. */
  readonly chosenPage: number | null;
  readonly onChoose: (pageNumber: number) => void;
  /** Longer side of a thumbnail, in CSS pixels. Default 160. */
  readonly longestPx?: number | undefined;
  /** A line under each picture; by default "Page 3". */
  readonly caption?: ((pageNumber: number) => string) | undefined;
}

const pageCaption = (pageNumber: number): string => `Page ${pageNumber}`;

/** The pages of a document to choose from, as small pictures that are drawn when they come into sight. */
export function PageThumbnails(props: PageThumbnailsProps): ReactNode {
  const { pdf, chosenPage, onChoose, longestPx = 160, caption = pageCaption } = props;
  const pages = Array.from({ length: pdf.numPages }, (_, index) => index + 1);
  const tabStop = chosenPage ?? 1;
  const list = useRef<HTMLDivElement>(null);

  // One tab stop, arrows within (WAI-ARIA radio group pattern).
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = ((tabStop - 1 + step + pdf.numPages) % pdf.numPages) + 1;
    onChoose(next);
    list.current?.querySelector<HTMLElement>(`[data-page="${next}"]`)?.focus();
  };

  return (
    <div ref={list} className="page-thumbnails" role="radiogroup" aria-label="Pages" onKeyDown={onKeyDown}>
      {pages.map((pageNumber) => (
        // biome-ignore lint/a11y/useSemanticElements: a picture to choose, drawn on a canvas
        <button
          key={pageNumber}
          type="button"
          role="radio"
          aria-checked={pageNumber === chosenPage}
          tabIndex={pageNumber === tabStop ? 0 : -1}
          data-page={pageNumber}
          className="page-thumbnail"
          onClick={() => onChoose(pageNumber)}
        >
          <PageThumbnail pdf={pdf} pageNumber={pageNumber} longestPx={longestPx} />
          <span className="page-thumbnail-caption">{caption(pageNumber)}</span>
        </button>
      ))}
    </div>
  );
}

interface PageThumbnailProps {
  readonly pdf: PDFDocumentProxy;
  readonly pageNumber: number;
  readonly longestPx: number;
}

function PageThumbnail({ pdf, pageNumber, longestPx }: PageThumbnailProps): ReactNode {
  const holder = useRef<HTMLSpanElement>(null);
  const [isInSight, setIsInSight] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);

  useEffect(() => {
    if (holder.current === null) return;
    const observer = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) setIsInSight(true);
      },
      { rootMargin: '200px' },
    );
    observer.observe(holder.current);
    return () => observer.disconnect();
  }, []);

  useEffect(() => {
    const element = holder.current;
    if (!isInSight || element === null) return;
    const canvas = document.createElement('canvas');
    element.replaceChildren(canvas);
    let isGone = false;
    let cancel = (): void => undefined;
    const draw = async (): Promise<void> => {
      const page = await pdf.getPage(pageNumber);
      if (isGone) return;
      const whole = page.getViewport({ scale: 1 });
      // Twice as fine as shown: thin lines, never drawn under a pixel wide, stay thin when scaled down.
      const scale = (longestPx * devicePixelRatio * 2) / Math.max(whole.width, whole.height);
      const viewport = page.getViewport({ scale });
      canvas.width = Math.max(1, Math.round(viewport.width));
      canvas.height = Math.max(1, Math.round(viewport.height));
      const task = page.render({ canvas, viewport });
      cancel = () => task.cancel();
      await task.promise;
      // Chosen or not, the page is read again when it is opened: a hundred pages need not stay in memory.
      page.cleanup();
    };
    draw().catch((error: unknown) => {
      if (isGone || error instanceof RenderingCancelledException) return;
      setRefusal(error instanceof Error ? error.message : String(error));
    });
    return () => {
      isGone = true;
      cancel();
      canvas.width = 0;
      canvas.height = 0;
      canvas.remove();
    };
  }, [pdf, pageNumber, longestPx, isInSight]);

  return (
    <span className="page-thumbnail-picture" style={{ width: longestPx, height: longestPx }}>
      <span ref={holder} className="page-thumbnail-canvas" hidden={refusal !== null} />
      {refusal !== null && (
        <span className="page-thumbnail-refusal">This page can't be drawn: {refusal}</span>
      )}
    </span>
  );
}
