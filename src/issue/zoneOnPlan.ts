import type { Point } from '../geometry/point.ts';
import { keptSpanOf, type RunZone } from '../measure/zonesOfRun.ts';

/** How a zone is drawn on plan, as rings and lines in whatever plane `at` leads to. */
export interface ZoneOnPlan<Place extends Point = Point> {
  /** What it takes from the pieces; the first two points are its front edge, the last two lie towards the back. */
  readonly ring: readonly Place[];
  /** A column that takes only the back: its own outline, where the fit does not pass it in front. */
  readonly columnRing: readonly Place[] | null;
  /** The equipment of a bay, by others, within what is kept free for it. */
  readonly equipment: readonly Place[] | null;
  /** Its door, open, and the way that it swings, in the working aisle. */
  readonly door: { readonly leaf: readonly Place[]; readonly arc: readonly Place[] } | null;
}

const arcSteps = 12;

/**
 * Lays a zone out on plan.
 *
 * @param at the place so far along the zone's straight and so far from its front towards the back, in mm.
 * @param isPassed of a column: whether pieces stand in front of it. One that is not passed takes the whole depth.
 */
export const zoneOnPlan = <Place extends Point>(
  zone: RunZone,
  depthMm: number,
  isPassed: boolean,
  at: (alongMm: number, offsetMm: number) => Place,
): ZoneOnPlan<Place> => {
  const box = (fromMm: number, toMm: number, frontMm: number): readonly Place[] => [
    at(fromMm, frontMm),
    at(toMm, frontMm),
    at(toMm, depthMm),
    at(fromMm, depthMm),
  ];
  const kept = keptSpanOf(zone);
  const { column, clearance } = zone;
  const columnBox = column ? box(zone.fromMm, zone.toMm, depthMm - column.depthMm) : null;
  const swingMm = clearance?.doorSwingMm ?? 0;
  const doorMm = Math.min(swingMm, zone.toMm - zone.fromMm);
  return {
    ring: columnBox && isPassed ? columnBox : box(kept.fromMm, kept.toMm, 0),
    columnRing: isPassed ? null : columnBox,
    equipment: zone.kind === 'bay' ? box(zone.fromMm, zone.toMm, 0) : null,
    door:
      swingMm > 0
        ? {
            leaf: [at(zone.fromMm, depthMm), at(zone.fromMm, depthMm + swingMm)],
            arc: Array.from({ length: arcSteps + 1 }, (_, step) => {
              const angle = (step / arcSteps) * (Math.PI / 2);
              return at(zone.fromMm + doorMm * Math.cos(angle), depthMm + swingMm * Math.sin(angle));
            }),
          }
        : null,
  };
};

/** The same with every point taken elsewhere. */
export const movedZone = <Zone extends ZoneOnPlan>(zone: Zone, moved: (point: Point) => Point): Zone => {
  const ring = (points: readonly Point[]) => points.map(moved);
  return {
    ...zone,
    ring: ring(zone.ring),
    columnRing: zone.columnRing && ring(zone.columnRing),
    equipment: zone.equipment && ring(zone.equipment),
    door: zone.door && { leaf: ring(zone.door.leaf), arc: ring(zone.door.arc) },
  };
};
