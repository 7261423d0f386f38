import { purposeWords, sizeWords } from './issuedWords.ts';
import type { Issued } from './useIssuePreview.ts';

const sizeOf = ({ files }: Issued): number => files.reduce((sum, { byteLength }) => sum + byteLength, 0);

/** Everything that went out of a project, the latest first. */
export const IssuedList = (props: {
  readonly issues: readonly Issued[];
  readonly shown: number | null;
  readonly busyWith: number | null;
  readonly onShow: (number: number) => void;
  readonly onSave: (number: number) => void;
}) => (
  <section className="issued-list" aria-label="Issued so far">
    <h2>Issued so far</h2>
    {props.issues.length === 0 && <p className="quiet">Nothing has gone out yet.</p>}
    <ol>
      {props.issues.toReversed().map((issue) => (
        <li key={issue.number} className={props.shown === issue.number ? 'is-shown' : undefined}>
          <button
            type="button"
            className="issued-entry"
            aria-current={props.shown === issue.number ? 'true' : undefined}
            onClick={() => props.onShow(issue.number)}
          >
            <strong>Issue {issue.number}</strong>
            <span>
              {issue.issuedAt.slice(0, 10)}, {purposeWords(issue.purpose)}
            </span>
            <span className="issued-size">
              {issue.files.length} files, {sizeWords(sizeOf(issue))}
              {issue.issuedBy && `, ${issue.issuedBy}`}
            </span>
          </button>
          <button
            type="button"
            className="word-button"
            aria-disabled={props.busyWith !== null}
            onClick={() => {
              if (props.busyWith === null) props.onSave(issue.number);
            }}
          >
            {props.busyWith === issue.number ? 'Saving …' : 'Save again'}
            <span className="visually-hidden"> issue {issue.number}</span>
          </button>
        </li>
      ))}
    </ol>
  </section>
);
