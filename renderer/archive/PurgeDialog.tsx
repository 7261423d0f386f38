import { useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { ArchiveDialog } from './ArchiveDialog.tsx';

type Preview = ApiOutput<'preview-purge'>;
type Report = ApiOutput<'purge-project'>;

const several = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

const staysWords = (stays: Preview['stays'], unit: DisplayUnit): readonly string[] => [
  `State ${stays.state}, ${several(stays.sheets, 'sheet')}`,
  stays.runLengthsMm.length === 0
    ? 'No run has a length'
    : `Runs of ${stays.runLengthsMm.map((lengthMm) => formatLength(lengthMm, { unit })).join(', ')}`,
  stays.pieces === null ? 'No fit was kept' : several(stays.pieces, 'piece'),
  ...(stays.stations.length > 0 ? [`Stations ${stays.stations.join(', ')}`] : []),
  ...(stays.rangeId ? [`Stock range ${stays.rangeId}`] : []),
  `Changed in ${stays.changedIn}${stays.tenderIn ? `, tender in ${stays.tenderIn}` : ''}, no day`,
];

const Copies = ({ copies }: { readonly copies: Preview['copies'] }) => (
  <ul>
    {copies.map(({ name, holds }) => (
      <li key={name}>
        <code>{name}</code>
        {holds === 'unread' && ' (can’t be looked into: may hold it)'}
      </li>
    ))}
  </ul>
);

const Asked = (props: {
  readonly preview: Preview;
  readonly unit: DisplayUnit;
  readonly isBusy: boolean;
  readonly onPurge: (withCopies: boolean) => void;
  readonly onClose: () => void;
}) => {
  const { project, goes, stays, sameClient, copies } = props.preview;
  const [withCopies, setWithCopies] = useState(true);
  return (
    <>
      <div className="archive-dialog-pair">
        <section>
          <h3>Goes for good</h3>
          <ul>
            <li>
              The names:{' '}
              {[project.name, project.jobNumber, project.client, project.site].filter(Boolean).join(', ')}
            </li>
            <li>Addenda, questions and answers, all that was drawn</li>
            <li>
              {several(goes.changes, 'change')}
              {goes.people.length > 0 && ` by ${goes.people.join(', ')}`}
            </li>
            <li>
              {goes.issues === 0
                ? 'Nothing was issued'
                : `${several(goes.issues, 'issued copy', 'issued copies')}; number and SHA-256 stay`}
            </li>
            {goes.plans.map(({ fileName, isShared }) => (
              <li key={fileName}>
                {isShared
                  ? `The name ${fileName}; the plan stays, another project has it`
                  : `The plan ${fileName}`}
              </li>
            ))}
            {goes.savedSearches.map((name) => (
              <li key={name}>The saved search “{name}”</li>
            ))}
          </ul>
        </section>
        <section>
          <h3>Stays, as counts</h3>
          <ul>
            {staysWords(stays, props.unit).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      </div>
      {copies.length > 0 && (
        <section>
          <h3>{several(copies.length, 'file')} beside the archive would still hold it</h3>
          <Copies copies={copies} />
          <label className="archive-dialog-check">
            <input
              type="checkbox"
              checked={withCopies}
              onChange={(event) => setWithCopies(event.target.checked)}
            />
            <span>Take these away too; a fresh backup without the project is made first.</span>
          </label>
        </section>
      )}
      <p className="quiet">
        Out of reach: backups and project files kept elsewhere, and what was sent out.
        {sameClient > 0 &&
          ` ${several(sameClient, 'other project names', 'other projects name')} this client and stay as they are.`}
      </p>
      <p className="archive-dialog-acts">
        <button
          type="button"
          className="main-button"
          disabled={props.isBusy}
          onClick={() => props.onPurge(withCopies && copies.length > 0)}
        >
          {props.isBusy ? 'Purging …' : 'Purge for good'}
        </button>
        <button type="button" className="word-button" onClick={props.onClose} disabled={props.isBusy}>
          Keep it
        </button>
      </p>
    </>
  );
};

const Done = ({ report, onClose }: { readonly report: Report; readonly onClose: () => void }) => (
  <>
    <p role="status">
      {report.isErased
        ? 'It is gone from the archive, from its files’ bytes too. Its counts stay.'
        : 'It is deleted. Its counts stay.'}
    </p>
    {report.advice && <p className="alert">{report.advice}</p>}
    {report.copiesRemoved.length > 0 && (
      <p>{several(report.copiesRemoved.length, 'file')} that held it taken away.</p>
    )}
    {report.copiesLeft.length > 0 && (
      <section>
        <h3>These still hold it</h3>
        <Copies copies={report.copiesLeft} />
      </section>
    )}
    <p className="archive-dialog-acts">
      <button type="button" className="main-button" onClick={onClose}>
        Close
      </button>
    </p>
  </>
);

/** Says exactly what a purge takes away and what it leaves, and purges when a person says so. */
export const PurgeDialog = (props: {
  readonly api: ApiClient;
  readonly projectId: ProjectId;
  readonly unit: DisplayUnit;
  readonly onClose: () => void;
  readonly onPurged: () => void;
}) => {
  const { api, projectId, onPurged } = props;
  const [preview, setPreview] = useState<Preview | null>(null);
  const [report, setReport] = useState<Report | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  useEffect(() => {
    let isCurrent = true;
    api.call('preview-purge', { projectId }).then(
      (found) => isCurrent && setPreview(found),
      (thrown: unknown) => isCurrent && setTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api, projectId]);
  const purge = (withCopies: boolean) => {
    if (!preview) return;
    setIsBusy(true);
    setTrouble(null);
    api.call('purge-project', { projectId, name: preview.project.name, withCopies }).then(
      (done) => {
        setIsBusy(false);
        setReport(done);
        onPurged();
      },
      (thrown: unknown) => {
        setIsBusy(false);
        setTrouble(wordsFor(thrown));
      },
    );
  };
  return (
    <ArchiveDialog
      title={report ? 'Purged' : preview ? `Purge ${preview.project.name}?` : 'Purge'}
      onClose={props.onClose}
    >
      {trouble && (
        <p className="alert" role="alert">
          {trouble}
        </p>
      )}
      {!preview && !trouble && <p className="quiet">Looking what it has …</p>}
      {preview && !report && (
        <Asked preview={preview} unit={props.unit} isBusy={isBusy} onPurge={purge} onClose={props.onClose} />
      )}
      {report && <Done report={report} onClose={props.onClose} />}
    </ArchiveDialog>
  );
};
