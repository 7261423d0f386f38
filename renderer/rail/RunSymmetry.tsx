import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';

/** Whether the pieces of a straight should be the mirror image of one another, and about what. */
export const RunSymmetry = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly nameOf: (item: string) => string;
  readonly onSymmetrical: (symmetrical: NonNullable<Run['symmetrical']>) => void;
}) => {
  const { document, run } = props;
  const symmetrical = run.symmetrical ?? [];
  const stations = Object.values(document.stations).filter(({ runId }) => runId === run.id);
  return (
    <details>
      <summary>
        Symmetry
        {symmetrical.length === 0
          ? ': not asked for'
          : `: of ${symmetrical.length} straight${symmetrical.length === 1 ? '' : 's'}`}
      </summary>
      <p className="step-lead">Adds an alternative whose pieces mirror one another, where there is one.</p>
      {run.frontLine.slice(0, -1).map(({ id: vertexId }, index) => {
        const asked = symmetrical.find((one) => one.vertexId === vertexId);
        const own = stations.filter((station) => station.vertexId === vertexId);
        return (
          <label key={vertexId} className="field">
            <span>Straight {index + 1}</span>
            <select
              value={asked ? (asked.aboutStationId ?? 'middle') : ''}
              onChange={(event) => {
                const chosen = event.target.value;
                const others = symmetrical.filter((one) => one.vertexId !== vertexId);
                const about = own.find(({ id }) => id === chosen);
                props.onSymmetrical(
                  chosen === '' ? others : [...others, { vertexId, aboutStationId: about?.id ?? null }],
                );
              }}
            >
              <option value="">as fits best</option>
              <option value="middle">about its middle</option>
              {own.map((station) => (
                <option key={station.id} value={station.id}>
                  about the {props.nameOf(station.item)}
                </option>
              ))}
            </select>
          </label>
        );
      })}
    </details>
  );
};
