import './Rail.css';
import type { ReactNode } from 'react';
import type { ProjectState } from '../project/projectSession.ts';
import { PreferenceSwitches } from '../shell/PreferenceSwitches.tsx';
import type { Preferences } from '../shell/usePreferences.ts';

const keepingWords = { saved: 'Saved', saving: 'Saving …', failed: 'Not saved' } as const;

/** The rail: the job's name, whether it is kept, its steps in their order, and how the window shows things. */
export const Rail = (props: {
  readonly project: ProjectState;
  readonly preferences: Preferences;
  readonly onLeave: () => void;
  readonly onUndo: () => void;
  readonly onRedo: () => void;
  /** What the office keeps of the job. */
  readonly job: ReactNode;
  readonly children: ReactNode;
}) => {
  const { project } = props;
  const { job } = project.document;
  return (
    <nav className="rail" aria-label="The job">
      <header className="rail-head">
        <button type="button" className="word-button" onClick={props.onLeave}>
          Archive
        </button>
        <h1 title={job.name}>{job.name}</h1>
        <div className="rail-keeping">
          <span role="status" className={project.keeping === 'failed' ? 'alert' : undefined}>
            {keepingWords[project.keeping]}
          </span>
          <span className="acts">
            <button
              type="button"
              className="word-button"
              disabled={project.undoLabel === null}
              title={project.undoLabel ? `Undo: ${project.undoLabel}` : 'Nothing to undo'}
              onClick={props.onUndo}
            >
              Undo
            </button>
            <button
              type="button"
              className="word-button"
              disabled={project.redoLabel === null}
              title={project.redoLabel ? `Redo: ${project.redoLabel}` : 'Nothing to redo'}
              onClick={props.onRedo}
            >
              Redo
            </button>
          </span>
        </div>
      </header>
      <div className="rail-steps">
        {props.job}
        {props.children}
      </div>
      <footer className="rail-foot">
        <PreferenceSwitches preferences={props.preferences} />
      </footer>
    </nav>
  );
};
