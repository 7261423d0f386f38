import type { PartName } from '../fitOnPlan.ts';
import type { ElevationInput } from './elevationInput.ts';
import type { Span } from './spansOf.ts';

/** The part that a length of the run belongs to, by the name that plan, elevation and schedule share. */
export const partOfSpan = (
  { zones }: Pick<ElevationInput, 'zones'>,
  { kind, index }: Pick<Span, 'kind' | 'index'>,
): PartName | undefined => {
  if (kind === 'piece') return `piece:${index}`;
  if (kind === 'leftover') return `leftover:${index}`;
  if (kind === 'wedge') return `wedge:${index}`;
  if (kind === 'corner') return `corner:${index}`;
  const isZone = kind === 'opening' || kind === 'blocked' || kind === 'bay' || kind === 'low';
  const zone = isZone ? zones[index] : undefined;
  return zone && `zone:${zone.id}`;
};
