import { groupDigits } from '../../src/units/digitGroups.ts';
import { projectsPerPage } from './useProjectSearch.ts';

const grouped = (count: number): string => groupDigits(String(count));

/** Which of the projects found are shown, and the way to the others. */
export const PageTurner = (props: {
  readonly total: number;
  readonly offset: number;
  readonly onOffset: (offset: number) => void;
}) => {
  const { total, offset } = props;
  const last = Math.min(total, offset + projectsPerPage);
  return (
    <p className="page-turner">
      <span role="status">
        {total === 0
          ? 'none'
          : total <= projectsPerPage
            ? `${grouped(total)} ${total === 1 ? 'project' : 'projects'}`
            : `${grouped(offset + 1)} to ${grouped(last)} of ${grouped(total)}`}
      </span>
      {total > projectsPerPage && (
        <>
          <button
            type="button"
            className="word-button"
            disabled={offset === 0}
            onClick={() => props.onOffset(Math.max(0, offset - projectsPerPage))}
          >
            Before
          </button>
          <button
            type="button"
            className="word-button"
            disabled={last >= total}
            onClick={() => props.onOffset(offset + projectsPerPage)}
          >
            After
          </button>
        </>
      )}
    </p>
  );
};
