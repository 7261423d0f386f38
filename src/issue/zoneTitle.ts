import type { RunZone } from '../measure/zonesOfRun.ts';

const kindWords: Readonly<Record<RunZone['kind'], string>> = {
  opening: 'Opening',
  blocked: 'Blocked',
  bay: 'Bay',
  low: 'Low section',
};

/** What a zone is called on a drawing: its name, with who brings the equipment of a bay, and whether it is a low section. */
export const zoneTitle = ({ kind, name }: Pick<RunZone, 'kind' | 'name'>): string => {
  const word = kindWords[kind];
  if (!name) return word;
  if (kind === 'bay')
    return name.toLowerCase() === 'bay' || /\bby others\b/i.test(name) ? name : `${name}, by others`;
  if (kind === 'low' && !/\blow\b/i.test(name)) return `${name}, low section`;
  return name;
};
