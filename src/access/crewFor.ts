import { GUIDELINE_KG, LARGEST_TEAM, TEAM_SHARES } from './handlingGuidance.ts';

/** How many people carry a piece, and whether a team alone is beyond the guidance. */
export interface Crew {
  /** 1 to 4. Where `needsAid` is true it is the largest workable team, to steer and steady, not to lift. */
  readonly people: number;
  /** True where even three people exceed the guideline: use a trolley, a skate or a hoist, or take the piece apart. */
  readonly needsAid: boolean;
  /** What that team may lift by the guidance, in kg; for a piece that needs an aid, the most of any team. */
  readonly capacityKg: number;
}

/**
 * What a team may lift by the guidance, in kg: the summed capability times the published share. Null for a team that
 * no share is published for.
 *
 * @example teamCapacityKg(2, 20) // 26.67
 */
export const teamCapacityKg = (people: number, eachKg: number = GUIDELINE_KG): number | null => {
  const team = TEAM_SHARES.find((entry) => entry.people === people);
  return team === undefined ? null : people * eachKg * team.share;
};

/**
 * The smallest team whose guideline capacity holds a mass, in kg: 25 alone, 33.3 for two, 37.5 for three.
 *
 * @example crewFor(30) // { people: 2, needsAid: false, capacityKg: 33.33… }
 */
export const crewFor = (massKg: number): Crew => {
  let mostKg = 0;
  for (const { people } of TEAM_SHARES) {
    const capacityKg = teamCapacityKg(people) ?? 0;
    mostKg = Math.max(mostKg, capacityKg);
    if (massKg <= capacityKg) return { people, needsAid: false, capacityKg };
  }
  return { people: LARGEST_TEAM, needsAid: true, capacityKg: mostKg };
};
