import './RevisionDialog.css';
import { useEffect, useRef, useState } from 'react';
import type { ProjectId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { Follows, TakenIn } from '../project/takenIn.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import type { Registered } from './comparedSheets.ts';
import { PickOnSheet } from './PickOnSheet.tsx';

type Laying =
  | { readonly at: 'laying' }
  | { readonly at: 'laid'; readonly registered: Registered }
  | { readonly at: 'picking'; readonly why: readonly string[] }
  | { readonly at: 'taking' }
  | { readonly at: 'failed'; readonly message: string };

const picksNeeded = 2;

const sizeWords = ({ map }: Registered): string => {
  const size = Math.hypot(map.a, map.b);
  const turn = (Math.atan2(map.b, map.a) * 180) / Math.PI;
  const sized =
    Math.abs(size - 1) < 5e-4 ? 'at the same size' : `at ${(size * 100).toFixed(1)} % of its size`;
  return Math.abs(turn) < 0.02 ? sized : `${sized}, turned by ${turn.toFixed(1)}°`;
};

/**
 * Lays a later page on its sheet: by their linework where that is sure, else by two places picked on both; then takes
 * it in as the sheet's revision and carries the runs over.
 */
export const RevisionDialog = (props: {
  readonly api: ApiClient;
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly taken: TakenIn;
  readonly follows: Follows;
  readonly oldPassword: string | undefined;
  readonly onDone: (sheetId: SheetId) => void;
  readonly onClose: () => void;
}) => {
  const { api, projectId, taken, follows, oldPassword } = props;
  const dialog = useRef<HTMLDialogElement>(null);
  const [laying, setLaying] = useState<Laying>({ at: 'laying' });
  const [follow, setFollow] = useState(true);
  const [oldPicks, setOldPicks] = useState<readonly PaperPoint[]>([]);
  const [newPicks, setNewPicks] = useState<readonly PaperPoint[]>([]);
  const [picks, setPicks] = useState<readonly { old: PaperPoint; new: PaperPoint }[] | null>(null);
  const old = props.document.sheets[follows.sheetId];
  const runs = Object.values(props.document.runs).filter(({ sheetId }) => sheetId === follows.sheetId);

  useEffect(() => {
    dialog.current?.showModal();
  }, []);

  const page = {
    projectId,
    sheetId: follows.sheetId,
    sha256: taken.sha256,
    page: taken.page.page,
    ...(taken.password ? { password: taken.password } : {}),
    ...(oldPassword ? { oldPassword } : {}),
    ...(picks ? { picks } : {}),
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: the page is laid anew for other picks alone
  useEffect(() => {
    const abort = new AbortController();
    setLaying({ at: 'laying' });
    api.call('register-revision', page, abort.signal).then(
      ({ registration }) => {
        if (abort.signal.aborted) return;
        setLaying(
          registration.isRegistered
            ? { at: 'laid', registered: registration }
            : { at: 'picking', why: registration.reasons },
        );
      },
      (thrown: unknown) => !abort.signal.aborted && setLaying({ at: 'failed', message: wordsFor(thrown) }),
    );
    return () => abort.abort();
  }, [picks]);

  const take = () => {
    setLaying({ at: 'taking' });
    api.call('revise-sheet', { ...page, name: follows.name, follow }).then(
      ({ sheetId }) => props.onDone(sheetId),
      (thrown: unknown) => setLaying({ at: 'failed', message: wordsFor(thrown) }),
    );
  };
  const startPicking = (why: readonly string[]) => {
    setOldPicks([]);
    setNewPicks([]);
    setLaying({ at: 'picking', why });
  };
  const isOldNext = oldPicks.length <= newPicks.length;
  const isPicked = oldPicks.length === picksNeeded && newPicks.length === picksNeeded;
  const layByPicks = () => setPicks(oldPicks.map((place, index) => ({ old: place, new: newPicks[index]! })));

  return (
    <dialog
      ref={dialog}
      className={laying.at === 'picking' ? 'take-in revision-dialog is-picking' : 'take-in revision-dialog'}
      aria-label="A later revision"
      onClose={props.onClose}
    >
      <h2>
        Revision {follows.name} of {old?.name ?? 'a sheet'}
      </h2>
      <p className="quiet take-in-file" title={taken.fileName}>
        {taken.fileName}, page {taken.page.page}
      </p>
      {(laying.at === 'laying' || laying.at === 'taking') && (
        <p role="status">
          {laying.at === 'laying'
            ? 'Laying the new page on the old one by their lines …'
            : 'Carrying the runs over …'}
        </p>
      )}
      {laying.at === 'laid' && (
        <>
          <p className={laying.registered.isSure ? undefined : 'alert'}>
            {laying.registered.isSure
              ? 'It lies on the old sheet '
              : 'Not sure. It may lie on the old sheet '}
            {sizeWords(laying.registered)}, ± {(laying.registered.plusMinusPt * (25.4 / 72)).toFixed(2)} mm of
            paper.
          </p>
          <ul className="revision-reasons">
            {laying.registered.reasons.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
          <p>
            {laying.registered.changes.gone.length} lines are gone, {laying.registered.changes.added.length}{' '}
            are new, {laying.registered.changes.moved.length} look moved.
          </p>
          {runs.length > 0 && (
            <label className="check-line">
              <input type="checkbox" checked={follow} onChange={(event) => setFollow(event.target.checked)} />
              <span>
                {runs.length === 1 ? 'The run follows' : `The ${runs.length} runs follow`} lines that moved.
                Else
                {runs.length === 1 ? ' it lies' : ' they lie'} where {runs.length === 1 ? 'it' : 'they'} lay
                in the building before.
              </span>
            </label>
          )}
          <p className="quiet">The old sheet and what is traced on it stay as they are.</p>
        </>
      )}
      {laying.at === 'picking' && (
        <>
          {laying.why.map((reason) => (
            <p key={reason} className="step-lead">
              {reason}
            </p>
          ))}
          <p>
            Pick the same two places on both sheets, far apart: two corners of the building do well. The wheel
            comes closer.
          </p>
          <div className="pick-both">
            {old && (
              <PickOnSheet
                api={api}
                label={`Old: ${old.name}`}
                sha256={old.planSha256}
                page={old.pageNumber}
                password={oldPassword}
                layers={old.layers}
                picks={oldPicks}
                isWaiting={isOldNext && oldPicks.length < picksNeeded}
                onPick={(place) => setOldPicks([...oldPicks, place])}
              />
            )}
            <PickOnSheet
              api={api}
              label={`New: ${taken.fileName}`}
              sha256={taken.sha256}
              page={taken.page.page}
              password={taken.password}
              layers={{}}
              picks={newPicks}
              isWaiting={!isOldNext}
              onPick={(place) => setNewPicks([...newPicks, place])}
            />
          </div>
        </>
      )}
      {laying.at === 'failed' && (
        <p className="alert" role="alert">
          {laying.message}
        </p>
      )}
      <div className="acts take-in-acts">
        {laying.at === 'picking' ? (
          <>
            <button type="button" className="main-button" disabled={!isPicked} onClick={layByPicks}>
              Lay it by these places
            </button>
            <button
              type="button"
              className="plain-button"
              disabled={oldPicks.length === 0}
              onClick={() => startPicking(laying.why)}
            >
              Pick anew
            </button>
          </>
        ) : (
          <button type="button" className="main-button" disabled={laying.at !== 'laid'} onClick={take}>
            Take it in as revision {follows.name}
          </button>
        )}
        {laying.at === 'laid' && (
          <button type="button" className="plain-button" onClick={() => startPicking([])}>
            Pick two places instead
          </button>
        )}
        <button type="button" className="plain-button" onClick={() => dialog.current?.close()}>
          Leave it
        </button>
      </div>
    </dialog>
  );
};
