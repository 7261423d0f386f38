import './IssuedScreen.css';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { Command } from '../../src/document/command.ts';
import type { IssueSettings } from '../../src/document/issueSettings.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { ProjectSession, ProjectState } from '../project/projectSession.ts';
import { saveFile } from '../project/saveFile.ts';
import { PreferenceSwitches } from '../shell/PreferenceSwitches.tsx';
import type { Preferences } from '../shell/usePreferences.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { ChangeList } from './ChangeList.tsx';
import { DeliveryView } from './DeliveryView.tsx';
import { IssuedCopy } from './IssuedCopy.tsx';
import { IssuedList } from './IssuedList.tsx';
import { NextIssue } from './NextIssue.tsx';
import { type Issued, useIssuePreview } from './useIssuePreview.ts';

type Prospect = ApiOutput<'issue-prospect'>;
type Step = NonNullable<Prospect['missing']>['step'];

const stepWords: Readonly<Record<Step, string>> = {
  plan: 'Take in a plan',
  scale: 'Set the scale',
  runs: 'Trace a run',
  fit: 'See the fit',
};

/** What leaves the office: the next issue and its preview, and everything that went out. Fills the window. */
export const IssuedScreen = (props: {
  readonly api: ApiClient;
  readonly session: ProjectSession;
  readonly project: ProjectState;
  readonly preferences: Preferences;
  /** Passwords of plans that were typed in this window, by SHA-256. */
  readonly passwords: ReadonlyMap<string, string>;
  readonly onCommand: (command: Command) => void;
  /** Goes back to the project, at a step of the job. */
  readonly onLeave: (step: Step | null) => void;
}) => {
  const { api, session, project, preferences } = props;
  const { projectId, document } = project;
  const { unit } = preferences;
  const [prospect, setProspect] = useState<Prospect | null>(null);
  const [issues, setIssues] = useState<readonly Issued[]>([]);
  const [shown, setShown] = useState<number | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busyWith, setBusyWith] = useState<number | null>(null);
  const [justIssued, setJustIssued] = useState<number | null>(null);
  const previewing = useIssuePreview(api, session);
  const { preview } = previewing;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);

  // Every change of the project may change what would go out.
  useEffect(() => {
    let isGone = false;
    const read = async (): Promise<void> => {
      await session.settled();
      const [next, listed] = await Promise.all([
        api.call('issue-prospect', { projectId, unit }),
        api.call('list-issued', { projectId }),
      ]);
      // The document is what makes this run again; nothing else of it is used.
      if (isGone || document !== session.state().document) return;
      setProspect(next);
      setIssues(listed.issues);
    };
    read().catch((thrown: unknown) => !isGone && setTrouble(wordsFor(thrown)));
    return () => {
      isGone = true;
    };
  }, [api, session, projectId, unit, document]);

  const shownIssue = issues.find(({ number }) => number === shown) ?? null;
  const draftId = preview.status === 'ready' || preview.status === 'issuing' ? preview.draft.draftId : null;
  const loadDrawn = useCallback(
    async (fileName: string) => (await api.call('draft-file', { draftId: draftId ?? '', fileName })).bytes,
    [api, draftId],
  );
  const save = async (number: number) => {
    setBusyWith(number);
    setTrouble(null);
    try {
      await saveFile(await api.call('issued-zip', { projectId, number }));
    } catch (thrown) {
      setTrouble(wordsFor(thrown));
    } finally {
      setBusyWith(null);
    }
  };

  const settings: IssueSettings = document.issueSettings ?? {
    legalOwner: '',
    creator: prospect?.by ?? '',
    approver: '',
    responsibleDepartment: '',
    purpose: 'information',
    paper: 'iso',
  };

  return (
    <div className="issued">
      <header className="issued-head">
        <button type="button" className="word-button" onClick={() => props.onLeave(null)}>
          {document.job.name}
        </button>
        <h1 ref={heading} tabIndex={-1}>
          Issued
        </h1>
        <nav className="archive-switches" aria-label="Display">
          <PreferenceSwitches preferences={preferences} />
        </nav>
      </header>
      <div className="issued-body">
        <div className="issued-rail">
          {prospect && !prospect.missing && (
            <NextIssue
              prospect={prospect}
              settings={settings}
              preview={preview}
              isOutdated={preview.status === 'ready' && preview.document !== document}
              trouble={previewing.trouble}
              onSettings={(issueSettings) => props.onCommand({ type: 'set-issue-settings', issueSettings })}
              onDraw={(documents) => {
                setShown(null);
                void previewing.draw(documents, Object.fromEntries(props.passwords));
              }}
              onCancel={previewing.cancel}
              onIssue={() =>
                void previewing.issue().then((issued) => {
                  if (!issued) return;
                  setJustIssued(issued.number);
                  setShown(issued.number);
                })
              }
            />
          )}
          <IssuedList
            issues={issues}
            shown={shown}
            busyWith={busyWith}
            onShow={setShown}
            onSave={(number) => void save(number)}
          />
        </div>
        <main className="issued-main">
          {(trouble || project.trouble) && (
            <p className="alert issued-note" role="alert">
              {trouble ?? project.trouble?.message}
            </p>
          )}
          {shownIssue ? (
            <IssuedCopy
              key={shownIssue.number}
              api={api}
              projectId={projectId}
              issue={shownIssue}
              issues={issues}
              unit={unit}
              passwords={props.passwords}
              takesFocus={shownIssue.number === justIssued}
              onBack={() => setShown(null)}
            />
          ) : prospect?.missing ? (
            <div className="issued-empty">
              <h2>Nothing can go out yet</h2>
              <p>{prospect.missing.words}</p>
              <button
                type="button"
                className="main-button"
                onClick={() => props.onLeave(prospect.missing?.step ?? null)}
              >
                {stepWords[prospect.missing.step]}
              </button>
            </div>
          ) : prospect ? (
            <>
              {prospect.since !== null && (
                <ChangeList
                  caption={`Changes since issue ${prospect.since}`}
                  changes={prospect.changes}
                  none="Nothing that is measured, fitted, checked or priced has changed."
                />
              )}
              {draftId !== null && (preview.status === 'ready' || preview.status === 'issuing') ? (
                <DeliveryView key={draftId} files={preview.files} load={loadDrawn} />
              ) : (
                <p className="issued-empty quiet">
                  {preview.status === 'drawing'
                    ? 'The pages show here once all documents are drawn.'
                    : 'Draw the preview to see exactly what would go out, page by page.'}
                </p>
              )}
            </>
          ) : (
            <p className="quiet issued-note" role="status">
              Reading what was issued …
            </p>
          )}
        </main>
      </div>
    </div>
  );
};
