/**
 * Figures of published manual-handling guidance, with their source and their own limits.
 *
 * HSE L23, "Manual handling: Manual Handling Operations Regulations 1992, guidance on regulations", paragraph 120
 * (read in a copy): the capability of two people is about two-thirds, of three about half, of the sum of what each can
 * handle alone; teams of more than four are unlikely to work; on steps and slopes the lower end carries most.
 * The guideline figure of 25 kg (men, close to the body, about knuckle height) is that of L23 and INDG143 (the figure
 * read in secondary texts); it is a filter for low risk in good conditions, not a limit of what may be lifted.
 */
export const GUIDELINE_KG = 25;

/** Share of the team's summed capability, by number of people (L23 paragraph 120). None is published for four. */
export const TEAM_SHARES: readonly { readonly people: number; readonly share: number }[] = [
  { people: 1, share: 1 },
  { people: 2, share: 2 / 3 },
  { people: 3, share: 1 / 2 },
];

/** The largest team that the guidance still regards as workable (L23 paragraph 120). */
export const LARGEST_TEAM = 4;

export const HANDLING_SOURCE =
  'HSE L23, Manual Handling Operations Regulations 1992, guidance, paragraph 120 (teams); guideline figure of 25 kg as in L23 and INDG143.';

export const HANDLING_LIMITS =
  'The guideline figure supposes an easy grip, good floor and light, no twisting, a short carry and infrequent lifts close to the body between knuckle and elbow height; it is lower for many people and postures. On stairs and slopes the person at the lower end carries most of the load, so the team figures do not hold there.';
