import { useEffect, useState } from 'react';
import type { ApiInput, ApiOutput } from '../../src/app/apiMethods.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { ArchiveDialog } from './ArchiveDialog.tsx';
import { RunStamp } from './RunStamp.tsx';

type Comparison = ApiOutput<'compare-project-file'>;
type Side = Comparison['theirs'];
type RunSide = Comparison['runs'][number]['mine'];
type Choice = NonNullable<ApiInput<'import-project'>['choice']>;
type Taken = ApiOutput<'import-project'>;

const moment = (instant: string) =>
  new Date(instant).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

const runWords = (side: RunSide, unit: DisplayUnit): string =>
  side === null
    ? 'not there'
    : [
        side.lengthMm === null ? 'no length yet' : formatLength(side.lengthMm, { unit }),
        ...(side.pieces === null ? [] : [`${side.pieces} pieces`]),
      ].join(', ');

type IssueSide = Comparison['issues'][number]['mine'];

const plainIssueWords = (side: NonNullable<IssueSide>): string =>
  [moment(side.issuedAt), side.issuedBy, side.purpose, `${side.files} files`].filter(Boolean).join(', ');

/** Two issues that say the same of themselves are told apart by the beginning of a SHA-256. */
const issueWords = (side: IssueSide, other: IssueSide): string => {
  if (side === null) return 'not there';
  const words = plainIssueWords(side);
  return other && plainIssueWords(other) === words ? `${words}, ${side.inputsSha256.slice(0, 8)}` : words;
};

const SideOf = ({ title, side }: { readonly title: string; readonly side: Side }) => (
  <section>
    <h3>{title}</h3>
    {side.picture && <RunStamp picture={side.picture} />}
    <p>{side.changes === 1 ? '1 change of its own' : `${side.changes} changes of its own`}</p>
    <ol className="archive-dialog-changes">
      {side.lastChanges.map(({ label, at, by, kind }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a change is known by its place alone
        <li key={index}>
          {kind === 'undo' ? 'Undone: ' : kind === 'redo' ? 'Done again: ' : ''}
          {label} <span className="quiet">{[moment(at), by].filter(Boolean).join(', ')}</span>
        </li>
      ))}
    </ol>
  </section>
);

/** A project file whose project has parted from the archive's: both side by side, and the person's choice. */
export const PartedDialog = (props: {
  readonly api: ApiClient;
  readonly file: File;
  readonly unit: DisplayUnit;
  readonly onChosen: (taken: Taken | null) => void;
  readonly onClose: () => void;
}) => {
  const { api, file, unit } = props;
  const [found, setFound] = useState<Comparison | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  useEffect(() => {
    const abort = new AbortController();
    const compare = async () => {
      const bytes = new Uint8Array(await file.arrayBuffer());
      return api.call('compare-project-file', { bytes }, abort.signal);
    };
    compare().then(
      (comparison) => abort.signal.aborted || setFound(comparison),
      (thrown: unknown) => abort.signal.aborted || setTrouble(wordsFor(thrown)),
    );
    return () => abort.abort();
  }, [api, file]);
  const take = async (choice: Choice) => {
    setIsBusy(true);
    setTrouble(null);
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      props.onChosen(await api.call('import-project', { bytes, choice }));
    } catch (thrown) {
      setTrouble(wordsFor(thrown));
      setIsBusy(false);
    }
  };
  const hasConflict = found?.issues.some(({ relation }) => relation === 'differs') ?? false;
  return (
    <ArchiveDialog title={found ? `${found.name} has gone two ways` : 'Comparing …'} onClose={props.onClose}>
      {trouble && (
        <p className="alert" role="alert">
          {trouble}
        </p>
      )}
      {found?.mine && (
        <>
          <p>
            {found.common === 1 ? '1 change is' : `${found.common} changes are`} common to this archive and
            the file; then each went on by itself.
          </p>
          <div className="archive-dialog-pair">
            <SideOf title="Here" side={found.mine} />
            <SideOf title="In the file" side={found.theirs} />
          </div>
          {(found.differences.length > 0 || found.runs.length > 0 || found.issues.length > 0) && (
            <table>
              <thead>
                <tr>
                  <th scope="col">What differs</th>
                  <th scope="col">Here</th>
                  <th scope="col">In the file</th>
                </tr>
              </thead>
              <tbody>
                {found.differences.map(({ what, mine, theirs }) => (
                  <tr key={what}>
                    <th scope="row">{what}</th>
                    <td>{mine || '–'}</td>
                    <td>{theirs || '–'}</td>
                  </tr>
                ))}
                {found.runs.map(({ name, mine, theirs }, index) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two runs may have the same name
                  <tr key={index}>
                    <th scope="row">{name}</th>
                    <td>{runWords(mine, unit)}</td>
                    <td>{runWords(theirs, unit)}</td>
                  </tr>
                ))}
                {found.issues.map(({ number, mine, theirs }) => (
                  <tr key={`issue ${number}`}>
                    <th scope="row">Issue {number}</th>
                    <td>{issueWords(mine, theirs)}</td>
                    <td>{issueWords(theirs, mine)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          {hasConflict && (
            <p className="caution">
              The same number went out for different issues. What was issued is never changed, so the file’s
              can only come in as a copy.
            </p>
          )}
          <div className="archive-dialog-acts">
            <button
              type="button"
              className="plain-button"
              disabled={isBusy}
              onClick={() => props.onChosen(null)}
            >
              Keep what is here
            </button>
            <button
              type="button"
              className="plain-button"
              disabled={isBusy || hasConflict}
              onClick={() => void take('theirs')}
            >
              Take the file’s over
            </button>
            <button
              type="button"
              className="plain-button"
              disabled={isBusy}
              onClick={() => void take('copy')}
            >
              Keep both, the file’s as a copy
            </button>
            {!hasConflict && (
              <span className="quiet">
                Taken over, what is here stays in the history: undo brings it back.
              </span>
            )}
          </div>
        </>
      )}
    </ArchiveDialog>
  );
};
