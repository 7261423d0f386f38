import type { ZoneId } from '../document/ids.ts';
import type { RunZone } from '../measure/zonesOfRun.ts';
import type { ServicePoint } from '../services/servicePoint.ts';
import type { PieceMarks } from './pieceMarks.ts';

/** Zones in the order of the front line, in which their marks count. */
export const zonesAlongTheFront = (zones: readonly RunZone[]): readonly RunZone[] =>
  zones.toSorted((one, other) => one.straight - other.straight || one.fromMm - other.fromMm);

/** The marks of a run’s bays, `1.Q1` along the front: Q for equipment, because E is an extra’s and `1-B1` a beer line’s tag. */
export const bayMarks = (runNumber: number, zones: readonly RunZone[]): ReadonlyMap<ZoneId, string> =>
  new Map(
    zonesAlongTheFront(zones)
      .filter(({ kind }) => kind === 'bay')
      .map(({ id }, index) => [id, `${runNumber}.Q${index + 1}`]),
  );

/** The mark of the piece or bay that a service comes up for; empty where neither is in the run. */
export const markOfService = (
  { asker }: Pick<ServicePoint, 'asker'>,
  runNumber: number,
  marks: PieceMarks | null,
  zones: readonly RunZone[],
): string =>
  (asker.kind === 'piece' ? marks?.pieces[asker.index] : bayMarks(runNumber, zones).get(asker.zoneId)) ?? '';
