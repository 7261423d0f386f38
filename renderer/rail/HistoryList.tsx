import { Fragment, useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { ProjectState } from '../project/projectSession.ts';
import { wordsFor } from '../shell/wordsFor.ts';

type History = ApiOutput<'project-history'>;
type Issued = History['issues'][number];

const acts = { command: '', undo: 'Undone: ', redo: 'Done again: ' } as const;

const moment = (instant: string) =>
  new Date(instant).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** So many changes are shown at first; a project of years has thousands. */
const shownFirst = 30;

const IssueLine = ({ issue: { number, at, by, purpose, files } }: { readonly issue: Issued }) => (
  <li className="history-change">
    <span className="history-label">
      Issue {number} went out
      <span className="quiet">
        {' '}
        {purpose}, {files} files
      </span>
    </span>
    <span className="history-when">
      <time dateTime={at}>{moment(at)}</time>
      {by && `, ${by}`}
    </span>
  </li>
);

/** Who did what and when, the last first, and a copy of the project as it was after any of it. */
export const HistoryList = ({
  api,
  project,
}: {
  readonly api: ApiClient;
  readonly project: ProjectState;
}) => {
  const [isOpen, setIsOpen] = useState(false);
  const [history, setHistory] = useState<History | null>(null);
  const [shown, setShown] = useState(shownFirst);
  const [said, setSaid] = useState<{ readonly words: string; readonly isTrouble: boolean } | null>(null);
  const { projectId, document, keeping } = project;

  // Looked up anew after each change that is on disk.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the document stands for the change
  useEffect(() => {
    if (!isOpen || keeping === 'saving') return;
    let isCurrent = true;
    api.call('project-history', { projectId }).then(
      (found) => isCurrent && setHistory(found),
      (thrown: unknown) => isCurrent && setSaid({ words: wordsFor(thrown), isTrouble: true }),
    );
    return () => {
      isCurrent = false;
    };
  }, [api, projectId, isOpen, keeping, document]);

  const copy = (revision: number) => {
    api.call('copy-project-at', { projectId, revision }).then(
      ({ name }) => setSaid({ words: `In the archive as “${name}”.`, isTrouble: false }),
      (thrown: unknown) => setSaid({ words: wordsFor(thrown), isTrouble: true }),
    );
  };

  const changes = history?.changes ?? null;
  const issuesAfter = (revision: number) =>
    [...(history?.issues ?? [])].reverse().filter(({ after }) => after === revision);
  const newestFirst = changes ? [...changes].reverse() : [];
  return (
    <details className="job-papers" onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>
        History <span className="job-count">{changes && isOpen ? `${changes.length} changes` : ''}</span>
      </summary>
      {said && (
        <p role="status" className={said.isTrouble ? 'alert' : 'quiet'}>
          {said.words}
        </p>
      )}
      {isOpen && !changes && !said && <p className="quiet">Looking it up …</p>}
      {changes?.length === 0 && <p className="quiet">Nothing has been changed yet.</p>}
      <ol className="history">
        {newestFirst.slice(0, shown).map(({ revision, kind, label, at, by, detail }) => (
          <Fragment key={revision}>
            {issuesAfter(revision).map((issue) => (
              <IssueLine key={issue.number} issue={issue} />
            ))}
            <li className="history-change">
              <span className="history-label">
                {acts[kind]}
                {label}
                {detail && <span className="quiet"> {detail}</span>}
              </span>
              <span className="history-when">
                <time dateTime={at}>{moment(at)}</time>
                {by && `, ${by}`}
              </span>
              <button
                type="button"
                className="word-button history-copy"
                aria-label={`Copy as it was then, after change ${revision}`}
                onClick={() => copy(revision)}
              >
                Copy as it was then
              </button>
            </li>
          </Fragment>
        ))}
        {newestFirst.length <= shown &&
          issuesAfter(0).map((issue) => <IssueLine key={issue.number} issue={issue} />)}
      </ol>
      {newestFirst.length > shown && (
        <button type="button" className="word-button" onClick={() => setShown(shown + 200)}>
          Earlier changes ({newestFirst.length - shown})
        </button>
      )}
    </details>
  );
};
