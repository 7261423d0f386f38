import './ArchiveScreen.css';
import { type FormEvent, useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { PreferenceSwitches } from '../shell/PreferenceSwitches.tsx';
import { useFileDrop } from '../shell/useFileDrop.ts';
import type { Preferences } from '../shell/usePreferences.ts';
import { pickPlan, useShellMenu } from '../shell/useShellMenu.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { ProjectTable } from './ProjectTable.tsx';

type Projects = ApiOutput<'list-projects'>['projects'];

const withoutEnding = (fileName: string) => fileName.replace(/\.pdf$/i, '');

/** All projects of the archive, and the ways to start one. */
export const ArchiveScreen = (props: {
  readonly api: ApiClient;
  readonly preferences: Preferences;
  readonly onOpen: (projectId: ProjectId) => void;
  readonly onDemo: () => void;
  readonly onStock: () => void;
  readonly onCreate: (name: string, plan: File | null) => void;
}) => {
  const { api, onCreate } = props;
  const [projects, setProjects] = useState<Projects | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [name, setName] = useState('');
  const isOver = useFileDrop((file) => onCreate(withoutEnding(file.name), file));
  useShellMenu({
    'add-plan': () =>
      void pickPlan().then(
        (file) => file && onCreate(withoutEnding(file.name), file),
        (thrown: unknown) => setTrouble(wordsFor(thrown)),
      ),
  });

  useEffect(() => {
    let isCurrent = true;
    api.call('list-projects', {}).then(
      (listed) => isCurrent && setProjects(listed.projects),
      (thrown: unknown) => isCurrent && setTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api]);

  const start = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim()) onCreate(name.trim(), null);
  };

  return (
    <main className={isOver ? 'archive is-over' : 'archive'}>
      <header className="archive-head">
        <h1>Footrail</h1>
        <p className="quiet">Bar counters from the architect’s plan to stock modules.</p>
        <nav className="archive-switches" aria-label="Display">
          <PreferenceSwitches preferences={props.preferences} />
        </nav>
      </header>

      <section className="archive-start" aria-label="Start a project">
        <form onSubmit={start}>
          <label className="field">
            <span>New project</span>
            <input
              value={name}
              maxLength={200}
              placeholder="Venue, or the tender’s title"
              onChange={(event) => setName(event.target.value)}
            />
          </label>
          <button type="submit" className="main-button" disabled={!name.trim()}>
            Start
          </button>
        </form>
        <p className="quiet">
          or drop a plan PDF anywhere on this page, or{' '}
          <button type="button" className="word-button" onClick={props.onDemo}>
            open the demo project
          </button>
        </p>
        <p className="quiet">
          <button type="button" className="word-button" onClick={props.onStock}>
            Stock ranges
          </button>{' '}
          say which modules and stations a counter is filled with, and at what price
        </p>
      </section>

      {trouble && (
        <p className="alert" role="alert">
          {trouble}
        </p>
      )}
      {!projects && !trouble && (
        <p className="quiet" role="status">
          Reading the archive …
        </p>
      )}
      {projects?.length === 0 && (
        <section className="archive-empty">
          <h2>Nothing archived yet</h2>
          <p>
            A project holds the plan PDFs of one job, the scale proved on each sheet, the counters traced on
            it and the modules that fill them. Everything is kept on this machine the moment you do it.
          </p>
          <p>
            The demo project is a finished example: an invented venue with an L-shaped front bar and a back
            bar. Open it to see where each step leads.
          </p>
        </section>
      )}
      {projects && projects.length > 0 && <ProjectTable projects={projects} onOpen={props.onOpen} />}
    </main>
  );
};
