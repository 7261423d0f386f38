import { issueCautions } from '../../src/issue/issueCautions.ts';
import { purposeWords } from '../issued/issuedWords.ts';
import type { Issued } from '../issued/useIssuePreview.ts';
import type { Takeaway } from '../project/useTakeAway.ts';

const choices: readonly (readonly [what: Takeaway, words: string])[] = [
  ['export-setting-out', 'Setting-out drawing (PDF)'],
  ['export-dxf', 'CAD file (DXF)'],
  ['export-plan', 'Plan with runs (PDF)'],
  ['export-workbook', 'Workbook with quote (XLSX)'],
  ['export-schedule', 'Schedule (CSV)'],
];

/** What leaves the office: drawings of the sheet on the board, the CAD file, the workbook and the schedule. */
export const TakeAwayStep = (props: {
  readonly hasRuns: boolean;
  readonly isBusy: boolean;
  readonly trouble: string | null;
  /** The last issue of this project. */
  readonly last: Issued | null;
  readonly onTake: (what: Takeaway) => void;
  /** Opens the screen of what goes out and went out. */
  readonly onIssued: () => void;
}) => (
  <>
    {!props.hasRuns && <p className="step-lead">Trace a run first; then there is something to take away.</p>}
    <div className="acts">
      <button type="button" className="main-button" onClick={props.onIssued}>
        Preview and issue
      </button>
    </div>
    <p className="step-lead">
      {props.last
        ? `Issue ${props.last.number} went out on ${props.last.issuedAt.slice(0, 10)}, ${purposeWords(props.last.purpose)}.`
        : 'Nothing has gone out yet.'}{' '}
      A single file, as the project is now and not issued:
    </p>
    <div className="acts">
      {choices.map(([what, words]) => (
        <button
          key={what}
          type="button"
          className="plain-button"
          disabled={!props.hasRuns}
          // Not `disabled` while a file is drawn: the focus would be lost with it.
          aria-disabled={props.isBusy}
          onClick={() => {
            if (!props.isBusy) props.onTake(what);
          }}
        >
          {words}
        </button>
      ))}
    </div>
    {props.isBusy && (
      <p className="step-lead" role="status">
        Drawing …
      </p>
    )}
    {props.trouble && (
      <p className="alert" role="alert">
        {props.trouble}
      </p>
    )}
    <p className="caution">{issueCautions.join(' ')}</p>
  </>
);
