import type { Zone } from '../../src/document/projectDocument.ts';

/** What the kinds of zone are called, and the letter by which each is known on plan and in lists. */
export const zoneWords: Readonly<
  Record<Zone['kind'], { readonly noun: string; readonly letter: string; readonly mark: string }>
> = {
  opening: { noun: 'opening', letter: 'O', mark: 'Opening' },
  blocked: { noun: 'blocked zone', letter: 'X', mark: 'Blocked zone' },
  bay: { noun: 'bay', letter: 'B', mark: 'Bay' },
  low: { noun: 'low section', letter: 'L', mark: 'Low section' },
};

export const zoneKinds = Object.keys(zoneWords) as readonly Zone['kind'][];
