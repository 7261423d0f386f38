import './TakeInPlan.css';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { SheetId } from '../../src/document/ids.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { PageThumbnails } from '../board/PageThumbnails.tsx';
import { usePdfDocument } from '../board/usePdfDocument.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import type { Follows, TakenIn } from './takenIn.ts';

type Pages = ApiOutput<'take-in-plan'>['pages'];

type Intake =
  | { readonly at: 'reading' }
  | { readonly at: 'taken'; readonly sha256: string; readonly pages: Pages }
  | { readonly at: 'refused'; readonly message: string };

/** The letter that follows a revision's: B after none and after A, C after B. */
const letterAfter = (revision: string): string =>
  /^[A-Y]$/.test(revision) ? String.fromCharCode(revision.charCodeAt(0) + 1) : 'B';

/** Takes in a plan file: password where it has one, its pages to choose from, and why where it can't be read. */
export const TakeInPlan = (props: {
  readonly api: ApiClient;
  readonly file: File;
  /** Sheets that the plan may be a later revision of. */
  readonly sheets: readonly { readonly id: SheetId; readonly name: string; readonly revision: string }[];
  readonly onTaken: (taken: TakenIn, follows: Follows | null) => void;
  readonly onClose: () => void;
}) => {
  const { api, file, sheets } = props;
  const [followed, setFollowed] = useState<SheetId | ''>('');
  const [letter, setLetter] = useState('B');
  const dialog = useRef<HTMLDialogElement>(null);
  const [bytes, setBytes] = useState<Uint8Array | null>(null);
  const [intake, setIntake] = useState<Intake>({ at: 'reading' });
  const [page, setPage] = useState(1);
  const [typed, setTyped] = useState('');
  const [password, setPassword] = useState<string>();
  const pdf = usePdfDocument(bytes);

  useEffect(() => {
    dialog.current?.showModal();
  }, []);

  useEffect(() => {
    let isCurrent = true;
    file.arrayBuffer().then(
      (buffer) => isCurrent && setBytes(new Uint8Array(buffer)),
      (thrown: unknown) =>
        isCurrent &&
        setIntake({ at: 'refused', message: `${file.name} cannot be opened: ${wordsFor(thrown)}` }),
    );
    return () => {
      isCurrent = false;
    };
  }, [file]);

  const isOpen = pdf.status === 'ready';
  useEffect(() => {
    if (!bytes || !isOpen) return;
    const abort = new AbortController();
    api
      .call('take-in-plan', { fileName: file.name, bytes, ...(password ? { password } : {}) }, abort.signal)
      .then(
        ({ sha256, pages }) => !abort.signal.aborted && setIntake({ at: 'taken', sha256, pages }),
        (thrown: unknown) => !abort.signal.aborted && setIntake({ at: 'refused', message: wordsFor(thrown) }),
      );
    return () => abort.abort();
  }, [api, bytes, file.name, isOpen, password]);

  const pages = intake.at === 'taken' ? intake.pages : null;
  const chosen = pages?.find((one) => one.page === page) ?? pages?.[0];
  const use = () => {
    if (intake.at === 'taken' && chosen)
      props.onTaken(
        { fileName: file.name, sha256: intake.sha256, page: chosen, password },
        followed === '' ? null : { sheetId: followed, name: letter.trim() || 'B' },
      );
  };
  const enter = (event: FormEvent) => {
    event.preventDefault();
    if (pdf.status !== 'password' || !typed) return;
    setPassword(typed);
    pdf.submit(typed);
  };
  const caption = (number: number) => {
    const one = pages?.find((candidate) => candidate.page === number);
    return one
      ? `${number}: ${one.sizeName || 'odd size'}, ${Math.round(one.widthMm)} × ${Math.round(one.heightMm)} mm`
      : `Page ${number}`;
  };

  return (
    <dialog ref={dialog} className="take-in" aria-label="Take in a plan" onClose={props.onClose}>
      <h2>Take in a plan</h2>
      <p className="quiet take-in-file" title={file.name}>
        {file.name}
      </p>
      {pdf.status === 'loading' && (
        <div role="status">
          <progress value={pdf.part} aria-label="Opening the plan" />
          <button type="button" className="word-button" onClick={pdf.cancel}>
            Cancel
          </button>
        </div>
      )}
      {pdf.status === 'password' && (
        <form onSubmit={enter} className="take-in-password">
          <label className="field">
            <span className={pdf.isWrong ? 'alert' : undefined} aria-live="polite">
              {pdf.isWrong ? 'That password does not open it. Try another' : 'This plan has a password'}
            </span>
            {/* The operator came here to type it. */}
            <input
              type="password"
              value={typed}
              autoFocus
              onChange={(event) => setTyped(event.target.value)}
            />
          </label>
          <button type="submit" className="main-button" disabled={!typed}>
            Open
          </button>
        </form>
      )}
      {pdf.status === 'failed' && (
        <p className="alert" role="alert">
          {pdf.refusal.message}
        </p>
      )}
      {intake.at === 'refused' && (
        <p className="alert" role="alert">
          {intake.message}
        </p>
      )}
      {pdf.status === 'ready' && (
        <>
          <p>
            {pdf.pdf.numPages === 1
              ? 'It has one page.'
              : `Choose the page to work on, of ${pdf.pdf.numPages}.`}
          </p>
          <div className="take-in-pages">
            <PageThumbnails pdf={pdf.pdf} chosenPage={page} onChoose={setPage} caption={caption} />
          </div>
        </>
      )}
      {pdf.status === 'ready' && sheets.length > 0 && (
        <div className="pair">
          <label className="field">
            <span>This plan is</span>
            <select
              value={followed}
              onChange={(event) => {
                const id = event.target.value as SheetId | '';
                setFollowed(id);
                setLetter(letterAfter(sheets.find((sheet) => sheet.id === id)?.revision ?? ''));
              }}
            >
              <option value="">another sheet</option>
              {sheets.map(({ id, name }) => (
                <option key={id} value={id}>
                  a later revision of {name}
                </option>
              ))}
            </select>
          </label>
          {followed !== '' && (
            <label className="field">
              <span>Revision</span>
              <input value={letter} maxLength={20} onChange={(event) => setLetter(event.target.value)} />
            </label>
          )}
        </div>
      )}
      <div className="acts take-in-acts">
        {pdf.status !== 'password' && pdf.status !== 'failed' && intake.at !== 'refused' && (
          <button type="button" className="main-button" disabled={!chosen} onClick={use}>
            {chosen ? `Use page ${chosen.page}` : 'Reading …'}
          </button>
        )}
        <button type="button" className="plain-button" onClick={() => dialog.current?.close()}>
          Leave it
        </button>
      </div>
    </dialog>
  );
};
