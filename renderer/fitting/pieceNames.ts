import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { wantedItemOf } from '../../src/stock/nameOfWanted.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';

/** A piece's name up to its first comma: `Module 900`. Its id where the range does not have it. */
export const shortNameOf = (range: StockRange | null, item: string): string => {
  const name =
    (range && wantedItemOf(range, item)?.name) ?? range?.cornerUnits.find(({ id }) => id === item)?.name;
  return name?.split(',')[0]?.trim() || item;
};

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The same piece's short name, and names of stations and zones, for ids that stand as words of their own in a sentence of the solver's. */
export const withNames = (text: string, range: StockRange | null, document: ProjectDocument): string => {
  const stationWords = text.replace(/"?(station-[A-Za-z0-9]{1,40})"?/g, (found, id: string) => {
    const station = Object.values(document.stations).find((one) => one.id === id);
    return station ? shortNameOf(range, station.item) : found;
  });
  const zoneWords = stationWords.replace(/"?(zone-[A-Za-z0-9]{1,40})"?/g, (found, id: string) => {
    const zone = Object.values(document.zones).find((one) => one.id === id);
    return zone?.name || found;
  });
  // An id of a letter or a bare number could be any word of a sentence.
  const ids = [...(range?.items ?? []), ...(range?.cornerUnits ?? [])]
    .map(({ id }) => id)
    .filter((id) => /[A-Za-z]/.test(id) && id.length > 2)
    .sort((one, other) => other.length - one.length);
  if (ids.length === 0) return zoneWords;
  const pattern = new RegExp(`(?<![\\w.-])(?:${ids.map(escaped).join('|')})(?![\\w-]|\\.\\w)`, 'g');
  return zoneWords.replace(pattern, (id) => shortNameOf(range, id));
};
