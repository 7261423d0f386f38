import { useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { IssueSettings } from '../../src/document/issueSettings.ts';
import { IssueSettingsForm } from './IssueSettingsForm.tsx';
import type { IssuePreview } from './useIssuePreview.ts';

type Prospect = ApiOutput<'issue-prospect'>;
type Choice = Prospect['documents'][number];

/** What goes out next: its number, what the title block says, the documents; drawing it, and issuing it. */
export const NextIssue = (props: {
  readonly prospect: Prospect;
  readonly settings: IssueSettings;
  readonly preview: IssuePreview;
  /** The project was changed since the preview was drawn. */
  readonly isOutdated: boolean;
  readonly trouble: string | null;
  readonly onSettings: (settings: IssueSettings) => void;
  readonly onDraw: (documents: readonly Choice[]) => void;
  readonly onCancel: () => void;
  readonly onIssue: () => void;
}) => {
  const { prospect, preview, isOutdated } = props;
  const [leftOut, setLeftOut] = useState<ReadonlySet<string>>(new Set());
  const chosen = prospect.documents.filter(({ key }) => !leftOut.has(key));
  const isDrawn = preview.status === 'ready' || preview.status === 'issuing';
  const drawnKeys = isDrawn ? preview.draft.documents.join() : '';
  const isOther = isOutdated || (isDrawn && drawnKeys !== chosen.map(({ key }) => key).join());
  return (
    <section className="next-issue" aria-label={`Issue ${prospect.number}, the next`}>
      <h2>
        Issue {prospect.number}{' '}
        <span className="issued-beside">
          revision {prospect.letter}, {isDrawn ? preview.draft.at.slice(0, 10) : prospect.date}
        </span>
      </h2>
      <IssueSettingsForm settings={props.settings} onChange={props.onSettings} />
      <fieldset className="issue-documents">
        <legend>Documents</legend>
        {prospect.documents.map(({ key, name }) => (
          <label key={key}>
            <input
              type="checkbox"
              checked={!leftOut.has(key)}
              onChange={() =>
                setLeftOut((before) => {
                  const after = new Set(before);
                  if (!after.delete(key)) after.add(key);
                  return after;
                })
              }
            />
            {name}
          </label>
        ))}
      </fieldset>
      {preview.status === 'drawing' ? (
        <div className="issue-progress">
          <p role="status">
            Drawing {preview.done + 1} of {preview.of}: {preview.name}
          </p>
          <progress value={preview.done} max={preview.of} aria-label="Documents drawn" />
          <button type="button" className="plain-button" onClick={props.onCancel}>
            Cancel
          </button>
        </div>
      ) : (
        <div className="issue-acts">
          <button
            type="button"
            className={isDrawn && !isOther ? 'plain-button' : 'main-button'}
            disabled={chosen.length === 0}
            onClick={() => props.onDraw(chosen)}
          >
            {isDrawn ? 'Draw it again' : 'Draw the preview'}
          </button>
          {isDrawn && (
            <button
              type="button"
              className="main-button"
              disabled={isOther || preview.status === 'issuing'}
              onClick={props.onIssue}
            >
              Issue {prospect.number}
            </button>
          )}
        </div>
      )}
      {isOther && <p className="alert">This preview no longer shows what would go out. Draw it again.</p>}
      {chosen.length === 0 && <p className="alert">Choose at least one document.</p>}
      {isDrawn && !isOther && (
        <p className="quiet">
          Issuing keeps exactly these files in the archive, for good. They can be saved again, never changed.
        </p>
      )}
      {props.trouble && (
        <p className="alert" role="alert">
          {props.trouble}
        </p>
      )}
    </section>
  );
};
