import type { KeyboardEvent } from 'react';
import type { SearchOrder } from '../../src/app/search/projectSearch.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { RunStamp } from './RunStamp.tsx';
import type { FoundProject } from './useProjectSearch.ts';

const day = (instant: string) =>
  new Date(instant).toLocaleDateString(undefined, { year: 'numeric', month: 'short', day: 'numeric' });

/** More runs than these are told by their number. */
const runsShown = 2;

const runWords = (facts: FoundProject['facts'], all: number, unit: DisplayUnit): string => {
  // Facts know which runs are in force: those of a superseded sheet are none of them.
  const runs = facts?.runs.length ?? all;
  const lengths = (facts?.runs ?? [])
    .filter(({ straightsMm }) => straightsMm.length > 0)
    .map(({ straightsMm }) => straightsMm.reduce((sum, straight) => sum + straight, 0));
  if (lengths.length === 0) return runs === 0 ? '' : `${runs}, no scale`;
  const shown = lengths.slice(0, runsShown).map((length) => formatLength(length, { unit }));
  const more = runs > shown.length ? `,\u00a0+${runs - shown.length}` : '';
  return `${shown.join(', ')}${more}`;
};

const piecesOf = (facts: FoundProject['facts']): string => {
  const counts = (facts?.runs ?? []).flatMap(({ pieces }) => pieces ?? []);
  return counts.length === 0 ? '' : String(counts.reduce((sum, count) => sum + count, 0));
};

/** Up and down walk the projects; everything else is the browser's. */
const walk = (event: KeyboardEvent<HTMLElement>) => {
  if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
  const names = [...event.currentTarget.querySelectorAll<HTMLElement>('.ledger-name')];
  const at = names.indexOf(document.activeElement as HTMLElement);
  if (at === -1) return;
  event.preventDefault();
  if (event.key === 'ArrowUp' && at === 0) document.getElementById('archive-words')?.focus();
  else names[at + (event.key === 'ArrowDown' ? 1 : -1)]?.focus();
};

/** The projects found, as a ledger that can be sorted by its heads. */
export const ProjectLedger = (props: {
  readonly projects: readonly FoundProject[];
  readonly order: SearchOrder;
  readonly isDescending: boolean;
  readonly unit: DisplayUnit;
  readonly onOrder: (order: SearchOrder, isDescending: boolean) => void;
  readonly onOpen: (projectId: ProjectId) => void;
  readonly onExport: (projectId: ProjectId) => void;
  /** Given while projects are to be purged. */
  readonly onPurge: ((projectId: ProjectId) => void) | null;
}) => {
  const head = (order: SearchOrder, words: string, isNumber = false) => {
    const isOn = props.order === order;
    // What came last and what is largest is wanted first.
    const startsDescending = order === 'changed' || order === 'length' || order === 'pieces';
    return (
      <th
        scope="col"
        className={isNumber ? 'number' : undefined}
        aria-sort={isOn ? (props.isDescending ? 'descending' : 'ascending') : 'none'}
      >
        <button
          type="button"
          className="ledger-head"
          onClick={() => props.onOrder(order, isOn ? !props.isDescending : startsDescending)}
        >
          {words}
          <span aria-hidden="true" className="ledger-direction">
            {isOn ? (props.isDescending ? '↓' : '↑') : ''}
          </span>
        </button>
      </th>
    );
  };
  return (
    <table className="ledger" onKeyDown={walk}>
      <caption className="visually-hidden">Projects</caption>
      <thead>
        <tr>
          <td />
          {head('name', 'Project')}
          {head('number', 'Job no.')}
          {head('client', 'Client')}
          {head('state', 'State')}
          {head('tender-date', 'Tender')}
          {head('length', 'Runs', true)}
          {head('pieces', 'Pieces', true)}
          {head('changed', 'Changed', true)}
          <td />
        </tr>
      </thead>
      <tbody>
        {props.projects.map(({ project, facts }) => (
          <tr key={project.projectId}>
            <td className="ledger-stamp">
              <RunStamp picture={facts?.picture ?? null} />
            </td>
            <th scope="row">
              <button type="button" className="ledger-name" onClick={() => props.onOpen(project.projectId)}>
                {project.name}
              </button>
              {project.site && <span className="ledger-site">{project.site}</span>}
            </th>
            <td className="ledger-word">{project.jobNumber}</td>
            <td className="ledger-word" title={project.client}>
              <span className="ledger-clamp">{project.client}</span>
            </td>
            <td>
              <span className="ledger-state">{project.state}</span>
              {facts && facts.openQuestions > 0 && (
                <span className="ledger-open">
                  {facts.openQuestions === 1 ? '1 open question' : `${facts.openQuestions} open questions`}
                </span>
              )}
            </td>
            <td className="ledger-day">{project.tenderDate && day(project.tenderDate)}</td>
            <td className="number ledger-runs">{runWords(facts, project.runs, props.unit)}</td>
            <td className="number">{piecesOf(facts)}</td>
            <td className="number">
              <time dateTime={project.modifiedAt}>{day(project.modifiedAt)}</time>
            </td>
            <td className="number">
              {props.onPurge ? (
                <button
                  type="button"
                  className="word-button"
                  aria-label={`Purge ${project.name} …`}
                  onClick={() => props.onPurge?.(project.projectId)}
                >
                  Purge …
                </button>
              ) : (
                <button
                  type="button"
                  className="word-button"
                  aria-label={`Project file of ${project.name}`}
                  title="Save this project as one file, to keep or to send"
                  onClick={() => props.onExport(project.projectId)}
                >
                  File
                </button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};
