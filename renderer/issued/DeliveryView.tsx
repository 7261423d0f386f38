import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { wordsFor } from '../shell/wordsFor.ts';
import { commonStem, fileWords, sizeWords } from './issuedWords.ts';
import { PdfDelivery } from './PdfDelivery.tsx';
import { TextDelivery } from './TextDelivery.tsx';
import type { IssueFile } from './useIssuePreview.ts';

type Loading =
  | { readonly status: 'loading' }
  | { readonly status: 'ready'; readonly file: IssueFile; readonly bytes: Uint8Array }
  | { readonly status: 'failed'; readonly message: string };

const isText = (mediaType: string): boolean =>
  mediaType.startsWith('text/') || mediaType === 'application/json' || mediaType.includes('dxf');

/** The inside of one file, from its very bytes. */
const Inside = ({ file, bytes }: { readonly file: IssueFile; readonly bytes: Uint8Array }) => {
  if (file.mediaType === 'application/pdf') return <PdfDelivery bytes={bytes} words={file.fileName} />;
  if (isText(file.mediaType))
    return <TextDelivery bytes={bytes} mediaType={file.mediaType} words={file.fileName} />;
  return (
    <p className="quiet issued-note">
      A workbook opens in a spreadsheet program. Its tables are the CSV files of this issue, which are shown
      here.
    </p>
  );
};

/** The files of an issue, or of its preview: a list, and what is in the chosen one. */
export const DeliveryView = (props: {
  readonly files: readonly IssueFile[];
  /** Gives a file's bytes. Keep its identity for the same issue. */
  readonly load: (fileName: string) => Promise<Uint8Array>;
}) => {
  const { files, load } = props;
  const [picked, setPicked] = useState<string | null>(null);
  const [loading, setLoading] = useState<Loading>({ status: 'loading' });
  const list = useRef<HTMLDivElement>(null);
  const chosen = files.find(({ fileName }) => fileName === picked) ?? files[0];
  const stem = commonStem(files.filter((one) => one.document !== 'manifest').map(({ fileName }) => fileName));

  useEffect(() => {
    if (!chosen) return;
    let isGone = false;
    setLoading({ status: 'loading' });
    load(chosen.fileName).then(
      (bytes) => !isGone && setLoading({ status: 'ready', file: chosen, bytes }),
      (thrown: unknown) => !isGone && setLoading({ status: 'failed', message: wordsFor(thrown) }),
    );
    return () => {
      isGone = true;
    };
  }, [chosen, load]);

  // One tab stop, arrows within (WAI-ARIA radio group pattern).
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (step === undefined || !chosen) return;
    event.preventDefault();
    const next = files[(files.indexOf(chosen) + step + files.length) % files.length];
    if (!next) return;
    setPicked(next.fileName);
    list.current?.querySelector<HTMLElement>(`[data-file="${CSS.escape(next.fileName)}"]`)?.focus();
  };

  if (!chosen) return null;
  return (
    <div className="delivery">
      <div className="delivery-files" role="radiogroup" aria-label="Files" ref={list} onKeyDown={onKeyDown}>
        {files.map((file) => (
          // biome-ignore lint/a11y/useSemanticElements: one of many files to look into
          <button
            key={file.fileName}
            type="button"
            role="radio"
            aria-checked={file === chosen}
            tabIndex={file === chosen ? 0 : -1}
            data-file={file.fileName}
            className="delivery-file"
            title={file.fileName}
            onClick={() => setPicked(file.fileName)}
          >
            <span>{fileWords(file.fileName, stem)}</span>{' '}
            <span className="delivery-kind">{/\.([^.]{1,5})$/.exec(file.fileName)?.[1]}</span>
          </button>
        ))}
      </div>
      <div className="delivery-head">
        <span className="delivery-name">{chosen.fileName}</span>
        <span className="quiet">{sizeWords(chosen.byteLength)}</span>
        <span className="quiet delivery-sum" title={chosen.sha256}>
          SHA-256 {chosen.sha256.slice(0, 16)}…
        </span>
      </div>
      <div className="delivery-inside">
        {loading.status === 'loading' && (
          <p className="quiet issued-note" role="status">
            Opening …
          </p>
        )}
        {loading.status === 'failed' && (
          <p className="alert issued-note" role="alert">
            {loading.message}
          </p>
        )}
        {loading.status === 'ready' && (
          <Inside key={loading.file.sha256} file={loading.file} bytes={loading.bytes} />
        )}
      </div>
    </div>
  );
};
