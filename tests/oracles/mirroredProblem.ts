import type { FitProblem } from '../../src/fitting/problemSchema.ts';

type Zones = readonly (readonly [number, number])[] | undefined;

/** The same run seen from its other end: straights, corners, ends, zones and wishes in reverse. */
export const mirroredProblem = (problem: FitProblem): FitProblem => {
  const last = problem.straights.length - 1;
  const flip = (zones: Zones, lengthMm: number) =>
    zones?.map(([from, to]) => [lengthMm - to, lengthMm - from] as [number, number]);
  const swapped = { 'first-through': 'second-through', 'second-through': 'first-through' } as const;
  return {
    ...problem,
    startHand: (problem.startHand ?? 'left') === 'left' ? 'right' : 'left',
    straights: problem.straights.toReversed().map((straight) => {
      const blocked = flip(straight.blocked, straight.lengthMm);
      const openings = flip(straight.openings, straight.lengthMm);
      const turned = <Part extends { readonly fromMm: number; readonly toMm: number }>(
        parts?: readonly Part[],
      ) =>
        parts?.map((part) => ({
          ...part,
          fromMm: straight.lengthMm - part.toMm,
          toMm: straight.lengthMm - part.fromMm,
        }));
      const bays = turned(straight.bays);
      const columns = turned(straight.columns);
      return {
        ...straight,
        ...(blocked ? { blocked } : {}),
        ...(openings ? { openings } : {}),
        ...(bays ? { bays } : {}),
        ...(columns ? { columns } : {}),
      };
    }),
    ...(problem.corners
      ? {
          corners: problem.corners.toReversed().map((corner) => ({
            ...corner,
            ...(corner.treatment
              ? { treatment: swapped[corner.treatment as keyof typeof swapped] ?? corner.treatment }
              : {}),
          })),
        }
      : {}),
    ends: [problem.ends[1], problem.ends[0]],
    ...(problem.wanted
      ? {
          wanted: problem.wanted.map((wish) => ({
            ...wish,
            straight: last - wish.straight,
            nearMm: problem.straights[wish.straight]!.lengthMm - wish.nearMm,
          })),
        }
      : {}),
  };
};
