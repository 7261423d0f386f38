import './RevisionPanel.css';
import { useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ProjectDocument, Sheet } from '../../src/document/projectDocument.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import type { Comparison } from './useComparedSheets.ts';

type Changes = ApiOutput<'compare-revision'>['changes'];
type ChangesState =
  | { readonly status: 'working' }
  | { readonly status: 'ready'; readonly changes: Changes }
  | { readonly status: 'failed'; readonly message: string };

/** How long the takeoff must have stood still before it is compared anew, in ms. */
const stillMs = 600;

/** What the revised sheet changes in the takeoff, as the archive has it; compared anew when the project changes. */
const useTakeoffChanges = (over: {
  readonly api: ApiClient;
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly sheet: Sheet;
  readonly unit: DisplayUnit;
  readonly isSaved: boolean;
}): ChangesState => {
  const { api, projectId, document, sheet, unit, isSaved } = over;
  const [state, setState] = useState<ChangesState>({ status: 'working' });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the document is what the archive compares
  useEffect(() => {
    if (!isSaved) return;
    const abort = new AbortController();
    const timer = window.setTimeout(() => {
      api.call('compare-revision', { projectId, sheetId: sheet.id, unit }, abort.signal).then(
        ({ changes }) => !abort.signal.aborted && setState({ status: 'ready', changes }),
        (thrown: unknown) =>
          !abort.signal.aborted && setState({ status: 'failed', message: wordsFor(thrown) }),
      );
    }, stillMs);
    return () => {
      window.clearTimeout(timer);
      abort.abort();
    };
  }, [api, projectId, document, sheet.id, unit, isSaved]);
  return state;
};

/** A sheet that follows another: how sure the match is, old and new over one another, and what it changes in the takeoff. */
export const RevisionPanel = (props: {
  readonly api: ApiClient;
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly sheet: Sheet;
  readonly unit: DisplayUnit;
  readonly isSaved: boolean;
  readonly comparison: Comparison;
  readonly isCompared: boolean;
  readonly onCompare: (isCompared: boolean) => void;
  /** While it is held, the old sheet is seen in place of the new one. */
  readonly onSwap: (isSwapped: boolean) => void;
}) => {
  const { sheet, document, comparison } = props;
  const { revisionOf } = sheet;
  const changes = useTakeoffChanges(props);
  if (!revisionOf) return null;
  const old = document.sheets[revisionOf.supersedes];
  const later = revisionOf.revision || 'B';
  const rows = changes.status === 'ready' ? changes.changes : [];
  const places = [...new Set(rows.map(({ where }) => where))];
  return (
    <section className="revision" aria-label="Revision">
      <h3>
        Revision {later} of {old?.name ?? 'a sheet that is gone'}
      </h3>
      <p className={revisionOf.isSure ? 'step-lead' : 'alert'}>
        {revisionOf.isSure ? '' : 'Not sure: '}
        {revisionOf.because} ± {(revisionOf.plusMinusPt * (25.4 / 72)).toFixed(2)} mm of paper.
      </p>
      <div className="acts">
        <button
          type="button"
          className="plain-button"
          aria-pressed={props.isCompared}
          onClick={() => props.onCompare(!props.isCompared)}
        >
          {props.isCompared ? 'Only the new sheet' : 'Show what moved'}
        </button>
        {comparison.status === 'ready' && (
          <button
            type="button"
            className="plain-button"
            onPointerDown={(event) => {
              event.currentTarget.setPointerCapture(event.pointerId);
              props.onSwap(true);
            }}
            onPointerUp={() => props.onSwap(false)}
            onPointerCancel={() => props.onSwap(false)}
            onKeyDown={({ key }) => (key === ' ' || key === 'Enter') && props.onSwap(true)}
            onKeyUp={() => props.onSwap(false)}
            onBlur={() => props.onSwap(false)}
          >
            Hold to see the old sheet
          </button>
        )}
      </div>
      {comparison.status === 'comparing' && (
        <p className="step-lead" role="status">
          Laying the two on one another …
        </p>
      )}
      {comparison.status === 'failed' && (
        <p className="alert" role="alert">
          {comparison.message}
        </p>
      )}
      {comparison.status === 'ready' && (
        <ul className="revision-key">
          <li>
            <svg viewBox="0 0 28 8" aria-hidden="true">
              <path d="M0 4h28" className="key-gone" />
            </svg>
            {old?.revisionOf?.revision || 'A'}: gone, {comparison.registered.changes.gone.length} lines
          </li>
          <li>
            <svg viewBox="0 0 28 8" aria-hidden="true">
              <path d="M0 4h28" className="key-added" />
            </svg>
            {later}: new, {comparison.registered.changes.added.length} lines
          </li>
          <li>
            <svg viewBox="0 0 28 8" aria-hidden="true">
              <path d="M0 4h26M20 1l6 3-6 3" className="key-moved" />
            </svg>
            moved, {comparison.registered.changes.moved.length} lines
          </li>
        </ul>
      )}
      <h3>What it changes in the takeoff</h3>
      {document.runIds.length === 0 && (
        <p className="step-lead">No run was traced on the old sheet: there is nothing to change.</p>
      )}
      {document.runIds.length > 0 && changes.status === 'working' && (
        <p className="step-lead" role="status">
          Comparing …
        </p>
      )}
      {document.runIds.length > 0 && changes.status === 'failed' && (
        <p className="step-lead">{changes.message}</p>
      )}
      {document.runIds.length > 0 && changes.status === 'ready' && rows.length === 0 && (
        <p className="step-lead">Nothing beyond the uncertainty.</p>
      )}
      {places.map((where) => (
        <div key={where} className="revision-changes">
          {where && <p className="seen-project">{where}</p>}
          <dl>
            {rows
              .filter((row) => row.where === where)
              .map(({ what, was, is }) => (
                <div key={`${what} ${was} ${is}`}>
                  <dt>{what}</dt>
                  <dd>
                    <del>{was}</del> <ins>{is}</ins>
                  </dd>
                </div>
              ))}
          </dl>
        </div>
      ))}
    </section>
  );
};
