import { useState } from 'react';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { ProjectState } from '../project/projectSession.ts';
import { wordsFor } from '../shell/wordsFor.ts';

interface Seen {
  readonly key: string;
  readonly project: string;
  readonly because: string;
}

/** A person looks at a few; a plan of a chain of venues may have hundreds. */
const plansMost = 10;
const runsMost = 5;

const lookFor = async (
  api: ApiClient,
  { projectId, document }: ProjectState,
  unit: DisplayUnit,
): Promise<readonly Seen[]> => {
  const seen: Seen[] = [];
  const plans = new Map(
    Object.values(document.sheets).map(({ planSha256, planFileName }) => [planSha256, planFileName]),
  );
  for (const [planSha256, fileName] of plans) {
    const { projects } = await api.call('search-projects', { search: { planSha256 }, most: plansMost });
    for (const { project } of projects)
      if (project.projectId !== projectId)
        seen.push({
          key: `${planSha256} ${project.projectId}`,
          project: project.name,
          because: `has the same plan, ${fileName}`,
        });
  }
  for (const run of Object.values(document.runs)) {
    const scaled = await api
      .call('similar-runs', { projectId, runId: run.id, most: runsMost })
      .catch((thrown: unknown) => {
        // A run without a scale has no length to be like.
        if (thrown instanceof Error && 'code' in thrown && thrown.code === 'run-without-length') return null;
        throw thrown;
      });
    for (const { project, runId, runName, lengthMm, differenceMm } of scaled?.runs ?? [])
      seen.push({
        key: `${run.id} ${project.projectId} ${runId}`,
        project: project.name,
        because: `${runName}, ${formatLength(lengthMm, { unit })}, is like ${run.name}: no straight differs by more than ${formatLength(differenceMm, { unit })}`,
      });
  }
  return seen;
};

/** Other projects with the same plan file or with runs of the same shape and nearly the same lengths. */
export const SeenBefore = (props: {
  readonly api: ApiClient;
  readonly project: ProjectState;
  readonly unit: DisplayUnit;
}) => {
  const [seen, setSeen] = useState<readonly Seen[] | 'looking' | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const look = () => {
    setTrouble(null);
    setSeen('looking');
    lookFor(props.api, props.project, props.unit).then(setSeen, (thrown: unknown) => {
      setSeen(null);
      setTrouble(wordsFor(thrown));
    });
  };
  return (
    <div className="job-papers">
      <button type="button" className="word-button" disabled={seen === 'looking'} onClick={look}>
        Seen before? The same plan, runs like these
      </button>
      {trouble && (
        <p className="alert" role="alert">
          {trouble}
        </p>
      )}
      <div role="status">
        {seen === 'looking' && <p className="quiet">Looking …</p>}
        {Array.isArray(seen) && seen.length === 0 && <p className="quiet">No other project is like this.</p>}
      </div>
      {Array.isArray(seen) && (
        <ul>
          {(seen as readonly Seen[]).map(({ key, project, because }) => (
            <li key={key}>
              <span className="seen-project">{project}</span>
              <span className="quiet">{because}</span>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
};
