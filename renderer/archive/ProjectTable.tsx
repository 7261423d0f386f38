import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';

const day = (instant: string) =>
  new Date(instant).toLocaleDateString(undefined, { year: 'numeric', month: 'short', day: 'numeric' });

/** The projects as a ledger, last changed first. */
export const ProjectTable = ({
  projects,
  onOpen,
}: {
  readonly projects: ApiOutput<'list-projects'>['projects'];
  readonly onOpen: (projectId: ProjectId) => void;
}) => (
  <table className="ledger">
    <caption className="visually-hidden">Projects, last changed first</caption>
    <thead>
      <tr>
        <th scope="col">Project</th>
        <th scope="col">Job no.</th>
        <th scope="col">Client</th>
        <th scope="col">State</th>
        <th scope="col" className="number">
          Sheets
        </th>
        <th scope="col" className="number">
          Runs
        </th>
        <th scope="col" className="number">
          Changed
        </th>
      </tr>
    </thead>
    <tbody>
      {projects.map((project) => (
        <tr key={project.projectId}>
          <th scope="row">
            <button type="button" className="ledger-name" onClick={() => onOpen(project.projectId)}>
              {project.name}
            </button>
          </th>
          <td>{project.jobNumber}</td>
          <td>{project.client}</td>
          <td>{project.state}</td>
          <td className="number">{project.sheets}</td>
          <td className="number">{project.runs}</td>
          <td className="number">
            <time dateTime={project.modifiedAt}>{day(project.modifiedAt)}</time>
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);
