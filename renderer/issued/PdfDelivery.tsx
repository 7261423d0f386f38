import { useState } from 'react';
import { PageThumbnails } from '../board/PageThumbnails.tsx';
import { usePdfDocument } from '../board/usePdfDocument.ts';
import { LargePage } from './LargePage.tsx';

/** An issued PDF drawn from its very bytes: its pages small, and one of them large. */
export const PdfDelivery = (props: { readonly bytes: Uint8Array; readonly words: string }) => {
  const opening = usePdfDocument(props.bytes);
  const [page, setPage] = useState(1);
  if (opening.status === 'failed') return <p className="alert issued-note">{opening.refusal.message}</p>;
  if (opening.status !== 'ready')
    return (
      <p className="quiet issued-note" role="status">
        Opening …
      </p>
    );
  const shown = Math.min(page, opening.pdf.numPages);
  return (
    <div className="pdf-delivery">
      <div className="pdf-delivery-pages">
        <PageThumbnails
          pdf={opening.pdf}
          chosenPage={shown}
          onChoose={setPage}
          longestPx={112}
          caption={(number) => String(number)}
        />
      </div>
      <LargePage pdf={opening.pdf} pageNumber={shown} words={props.words} onPage={setPage} />
    </div>
  );
};
