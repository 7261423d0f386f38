import './ArchiveScreen.css';
import { type ChangeEvent, type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { saveFile } from '../project/saveFile.ts';
import { PreferenceSwitches } from '../shell/PreferenceSwitches.tsx';
import { useFileDrop } from '../shell/useFileDrop.ts';
import type { Preferences } from '../shell/usePreferences.ts';
import { pickPlan, useShellMenu } from '../shell/useShellMenu.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { ArchiveHealth } from './ArchiveHealth.tsx';
import { PageTurner } from './PageTurner.tsx';
import { PartedDialog } from './PartedDialog.tsx';
import { PastRetention } from './PastRetention.tsx';
import { ProjectLedger } from './ProjectLedger.tsx';
import { PurgeDialog } from './PurgeDialog.tsx';
import { SavedSearches } from './SavedSearches.tsx';
import { TakenFiles } from './TakenFiles.tsx';
import { useProjectSearch } from './useProjectSearch.ts';
import { useTakeInMany } from './useTakeInMany.ts';
import { Wishes } from './Wishes.tsx';

/** What a project is called after a plan file, within the length that names may have. */
const withoutEnding = (fileName: string) =>
  (fileName.replace(/\.pdf$/i, '').trim() || fileName).slice(0, 200);

/** The steps of a job with what each is for, told to someone who sees them for the first time. */
const jobInOrder: readonly (readonly [word: string, what: string])[] = [
  ['Plan', 'The architect’s PDF, kept as it came.'],
  ['Scale', 'Proved by dimensions, not by the note.'],
  ['Runs', 'Each counter, traced along its front line.'],
  ['Fit', 'Stock pieces along each run, leftovers flagged.'],
  ['Way in', 'Every piece tried from the kerb to the bar.'],
  ['Site measure', 'What to measure before anything is ordered.'],
  ['Price', 'The pieces, and the terms of the quote.'],
  ['Take away', 'Drawings, schedule and quote, issued and kept.'],
];

/** All projects of the archive: to find one again, to start one, to take many in. */
export const ArchiveScreen = (props: {
  readonly api: ApiClient;
  readonly preferences: Preferences;
  readonly onOpen: (projectId: ProjectId) => void;
  readonly onDemo: () => void;
  readonly onStock: () => void;
  readonly onCreate: (name: string, plan: File | null) => void;
}) => {
  const { api, onCreate } = props;
  const searching = useProjectSearch(api);
  const { search, page, setSearch } = searching;
  const taking = useTakeInMany(api, searching.refresh);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [name, setName] = useState('');
  const [parted, setParted] = useState<File | null>(null);
  const [purging, setPurging] = useState<ProjectId | null>(null);
  const [showsPast, setShowsPast] = useState(false);
  const [purgeTurn, setPurgeTurn] = useState(0);
  const wordsInput = useRef<HTMLInputElement>(null);
  const manyInput = useRef<HTMLInputElement>(null);
  const folderInput = useRef<HTMLInputElement>(null);
  const projectInput = useRef<HTMLInputElement>(null);

  const isOver = useFileDrop(
    (file) => (/\.zip$/i.test(file.name) ? taking.takeIn([file]) : onCreate(withoutEnding(file.name), file)),
    taking.takeIn,
    setTrouble,
  );
  useShellMenu({
    'add-plan': () =>
      void pickPlan().then(
        (file) => file && onCreate(withoutEnding(file.name), file),
        (thrown: unknown) => setTrouble(wordsFor(thrown)),
      ),
  });
  useEffect(() => {
    // React knows no attribute of this name; browsers take it for choosing a folder with all that is in it.
    folderInput.current?.setAttribute('webkitdirectory', '');
    const seek = (event: globalThis.KeyboardEvent) => {
      const isTyping =
        event.target instanceof HTMLInputElement || event.ctrlKey || event.metaKey || event.altKey;
      if (event.key !== '/' || isTyping) return;
      event.preventDefault();
      wordsInput.current?.focus();
    };
    window.addEventListener('keydown', seek);
    return () => window.removeEventListener('keydown', seek);
  }, []);

  const start = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim()) onCreate(name.trim(), null);
  };
  const take = (event: ChangeEvent<HTMLInputElement>) => {
    const given = [...(event.target.files ?? [])].filter(({ name: fileName }) =>
      /\.(pdf|zip)$/i.test(fileName),
    );
    event.target.value = '';
    if (given.length === 0) setTrouble('There is no PDF among what was chosen.');
    taking.takeIn(given);
  };
  const save = (calling: Promise<Parameters<typeof saveFile>[0]>) => {
    setTrouble(null);
    calling.then(saveFile).catch((thrown: unknown) => setTrouble(wordsFor(thrown)));
  };
  const towardsLedger = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setSearch({ ...search, words: '' });
    if (event.key !== 'ArrowDown') return;
    event.preventDefault();
    document.querySelector<HTMLElement>('.ledger-name')?.focus();
  };

  const { order = 'changed' } = search;
  const isDescending = search.descending ?? order === 'changed';
  const shownTrouble = trouble ?? searching.trouble;
  const isEmpty = searching.isArchiveEmpty;

  return (
    <main className={isOver ? 'archive is-over' : 'archive'}>
      <header className="archive-head">
        <h1>Footrail</h1>
        <p className="quiet">Bar counters from the architect’s plan to stock modules.</p>
        <nav className="archive-switches" aria-label="Display">
          <button type="button" className="word-button" onClick={props.onStock}>
            Stock ranges
          </button>
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
          or drop plan PDFs anywhere on this page, take in{' '}
          <button type="button" className="word-button" onClick={() => manyInput.current?.click()}>
            several PDFs
          </button>
          ,{' '}
          <button type="button" className="word-button" onClick={() => folderInput.current?.click()}>
            a folder of them
          </button>{' '}
          or{' '}
          <button type="button" className="word-button" onClick={() => projectInput.current?.click()}>
            a project file
          </button>
          {!isEmpty && (
            <>
              , or{' '}
              <button type="button" className="word-button" onClick={props.onDemo}>
                open the demo project
              </button>
            </>
          )}
        </p>
        {(
          [
            ['Plan files', manyInput, 'application/pdf,.pdf'],
            ['Folder of plan files', folderInput, undefined],
            ['Project file', projectInput, 'application/zip,.zip'],
          ] as const
        ).map(([label, input, accept]) => (
          <input
            key={label}
            ref={input}
            type="file"
            multiple
            accept={accept}
            className="visually-hidden"
            aria-label={label}
            tabIndex={-1}
            onChange={take}
          />
        ))}
      </section>

      <TakenFiles taking={taking} onOpen={props.onOpen} onChoose={setParted} />
      {parted && (
        <PartedDialog
          api={api}
          file={parted}
          unit={props.preferences.unit}
          onClose={() => setParted(null)}
          onChosen={(taken) => {
            taking.settle(parted, taken);
            setParted(null);
          }}
        />
      )}
      {purging && (
        <PurgeDialog
          api={api}
          projectId={purging}
          unit={props.preferences.unit}
          onClose={() => setPurging(null)}
          onPurged={() => {
            setPurgeTurn((turn) => turn + 1);
            searching.refresh();
          }}
        />
      )}
      {shownTrouble && (
        <p className="alert" role="alert">
          {shownTrouble}
        </p>
      )}
      {!page && !searching.trouble && (
        <p className="quiet" role="status">
          Reading the archive …
        </p>
      )}
      {isEmpty && (
        <section className="archive-empty">
          <h2>Nothing archived yet</h2>
          <p>
            Name a project above, or drop a plan here. Then the job goes from step to step; everything is kept
            on this machine the moment you do it.
          </p>
          <ol className="archive-job">
            {jobInOrder.map(([word, what]) => (
              <li key={word}>
                <b>{word}</b>
                {what}
              </li>
            ))}
          </ol>
          <p>
            The demo project is a finished example: an invented venue with an L-shaped front bar and a back
            bar. It shows where each step leads.
          </p>
          <button type="button" className="plain-button" onClick={props.onDemo}>
            Open the demo project
          </button>
        </section>
      )}
      {page && !isEmpty && (
        <div className="archive-body">
          <div className="archive-side">
            <Wishes
              api={api}
              search={search}
              page={page}
              unit={props.preferences.unit}
              onSearch={setSearch}
              onTrouble={setTrouble}
              onPast={() => setShowsPast(true)}
            />
            <SavedSearches api={api} search={search} onSearch={setSearch} onTrouble={setTrouble} />
          </div>
          <div className="archive-found">
            {showsPast && (
              <PastRetention
                api={api}
                turn={purgeTurn}
                onPurge={setPurging}
                onPutAway={() => setShowsPast(false)}
              />
            )}
            <search className="archive-search">
              <label className="field">
                <span>Find</span>
                <input
                  id="archive-words"
                  ref={wordsInput}
                  type="search"
                  value={search.words ?? ''}
                  maxLength={500}
                  placeholder="Venue, job number, client, site, station, plan file, a word on a plan"
                  onChange={(event) => setSearch({ ...search, words: event.target.value })}
                  onKeyDown={towardsLedger}
                />
              </label>
              <PageTurner total={page.total} offset={searching.offset} onOffset={searching.setOffset} />
              <button
                type="button"
                className="word-button"
                disabled={page.total === 0}
                onClick={() => save(api.call('export-project-list', { search }))}
              >
                List as CSV
              </button>
            </search>
            {page.isPartial && (
              <p className="quiet">
                The archive can’t be written, so that not every project can be looked through for lengths and
                words on plans.
              </p>
            )}
            {page.projects.length > 0 ? (
              <ProjectLedger
                projects={page.projects}
                order={order}
                isDescending={isDescending}
                unit={props.preferences.unit}
                onOrder={(next, descending) => setSearch({ ...search, order: next, descending })}
                onOpen={props.onOpen}
                onPurge={showsPast ? setPurging : null}
                onExport={(projectId) => save(api.call('export-project', { projectId }))}
              />
            ) : (
              <p className="archive-none">
                No project is like that.{' '}
                <button type="button" className="word-button" onClick={() => setSearch({})}>
                  Show every project
                </button>
              </p>
            )}
          </div>
        </div>
      )}
      <ArchiveHealth api={api} />
    </main>
  );
};
