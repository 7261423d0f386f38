import { useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

type Past = ApiOutput<'projects-past-retention'>['projects'];
type Purged = ApiOutput<'purged-projects'>['projects'];

const day = (date: string) =>
  new Date(date).toLocaleDateString(undefined, { year: 'numeric', month: 'short', day: 'numeric' });

const lengthOf = (purged: Purged): string => {
  const metres = purged.flatMap(({ runLengthsMm }) => runLengthsMm).reduce((sum, mm) => sum + mm, 0) / 1000;
  return `${metres.toFixed(1)} m of runs`;
};

/** What asked for it stands further down. */
const intoView = (section: HTMLElement | null) => section?.scrollIntoView({ block: 'nearest' });

/** Projects past the day until which they were to be kept, each to be purged; what stays of those that were. */
export const PastRetention = (props: {
  readonly api: ApiClient;
  /** Changes whenever something was purged. */
  readonly turn: number;
  readonly onPurge: (projectId: ProjectId) => void;
  readonly onPutAway: () => void;
}) => {
  const { api, turn } = props;
  const [past, setPast] = useState<Past | null>(null);
  const [purged, setPurged] = useState<Purged>([]);
  const [trouble, setTrouble] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the turn stands for what was purged
  useEffect(() => {
    let isCurrent = true;
    Promise.all([api.call('projects-past-retention', {}), api.call('purged-projects', {})]).then(
      ([found, gone]) => {
        if (!isCurrent) return;
        setPast(found.projects);
        setPurged(gone.projects);
      },
      (thrown: unknown) => isCurrent && setTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api, turn]);
  return (
    <section className="past-retention" aria-label="Past their day" ref={intoView}>
      <header>
        <h2>Past the day until which they were to be kept</h2>
        <button type="button" className="word-button" onClick={props.onPutAway}>
          Put away
        </button>
      </header>
      {trouble && <p className="alert">{trouble}</p>}
      {past?.length === 0 && <p className="quiet">None. A project’s day is set at its step Job.</p>}
      {past && past.length > 0 && (
        <table className="ledger">
          <thead>
            <tr>
              <th scope="col">Project</th>
              <th scope="col">Client</th>
              <th scope="col">Keep until</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {past.map(({ project, retainUntil, isRemoved }) => (
              <tr key={project.projectId}>
                <th scope="row">
                  {project.name}
                  {isRemoved && <span className="ledger-site">taken out of the list before</span>}
                </th>
                <td>{project.client}</td>
                <td className="ledger-day">{day(retainUntil)}</td>
                <td className="number">
                  <button
                    type="button"
                    className="word-button"
                    aria-label={`Purge ${project.name} …`}
                    onClick={() => props.onPurge(project.projectId)}
                  >
                    Purge …
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="quiet">
        A client who asks to be forgotten: find their projects below; each has “Purge …” while this is open.
        {purged.length > 0 &&
          ` ${purged.length === 1 ? '1 purged project stays' : `${purged.length} purged projects stay`} as counts: ${lengthOf(purged)}.`}
      </p>
    </section>
  );
};
