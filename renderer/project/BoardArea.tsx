import type { PDFDocumentProxy } from 'pdfjs-dist';
import type { ReactNode } from 'react';
import type { Sheet } from '../../src/document/projectDocument.ts';
import type { PdfDocumentState } from '../board/usePdfDocument.ts';
import { PasswordAsk } from './PasswordAsk.tsx';
import type { PlanBytes } from './usePlanBytes.ts';

/** The place of the sheet: the sheet itself, or what is missing or wrong and what to do about it. */
export const BoardArea = (props: {
  readonly sheet: Sheet | null;
  readonly planBytes: PlanBytes;
  readonly pdf: PdfDocumentState;
  readonly onTakeIn: () => void;
  readonly onPassword: (password: string) => void;
  readonly children: (pdf: PDFDocumentProxy, sheet: Sheet) => ReactNode;
}) => {
  const { sheet, planBytes, pdf } = props;
  if (!sheet)
    return (
      <div className="board-message">
        <p>Drop the architect’s plan here, or</p>
        <p>
          <button type="button" className="main-button" onClick={props.onTakeIn}>
            Take in a plan …
          </button>
        </p>
      </div>
    );
  if (planBytes.status === 'failed') return <p className="board-message alert">{planBytes.message}</p>;
  if (pdf.status === 'failed') return <p className="board-message alert">{pdf.refusal.message}</p>;
  if (pdf.status === 'password')
    return (
      <PasswordAsk
        isWrong={pdf.isWrong}
        onPassword={(typed) => {
          props.onPassword(typed);
          pdf.submit(typed);
        }}
      />
    );
  if (pdf.status === 'ready') return props.children(pdf.pdf, sheet);
  return (
    <p className="board-message" role="status">
      Opening {sheet.planFileName} …
    </p>
  );
};
