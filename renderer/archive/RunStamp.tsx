import type { FoundProject } from './useProjectSearch.ts';

type Picture = NonNullable<NonNullable<FoundProject['facts']>['picture']>;

/** Units of the picture left free around it, so that strokes at its edge show whole. */
const margin = 40;

const pathOf = (points: readonly number[], isClosed: boolean): string => {
  const parts: string[] = [];
  for (let at = 0; at + 1 < points.length; at += 2) parts.push(`${points[at]} ${points[at + 1]}`);
  return `M${parts.join('L')}${isClosed ? 'Z' : ''}`;
};

/** A project's counters from above, the size of a stamp. */
export const RunStamp = ({ picture }: { readonly picture: Picture | null }) =>
  picture ? (
    <svg
      className="run-stamp"
      aria-hidden="true"
      viewBox={`${-margin} ${-margin} ${picture.width + 2 * margin} ${picture.height + 2 * margin}`}
    >
      {picture.runs.map(({ points, isClosed }) => (
        <path
          key={points.join(' ')}
          d={pathOf(points, isClosed)}
          className={isClosed ? 'is-closed' : undefined}
        />
      ))}
    </svg>
  ) : (
    <span className="run-stamp is-none" aria-hidden="true" />
  );
