import type { PaperPoint } from '../geometry/point.ts';
import { micrometresOf, millimetresOf } from '../units/length.ts';
import { cornersOf } from './corners.ts';
import { settledZones } from './settledZones.ts';
import { straightsOf } from './straights.ts';
import type { SheetScale, TracedRun } from './tracedRun.ts';
import { zoneNear, zoneOn } from './zones.ts';

/** A zone as marked on the sheet: two points near a straight, or the corners of a column. */
export interface MarkedZone {
  readonly kind: 'opening' | 'blocked' | 'bay' | 'low';
  readonly points: readonly PaperPoint[];
  /** The straight it belongs to; without it, the one it is nearest to. */
  readonly straight?: number;
  /** For `blocked`: how much of the depth it takes at the back. Left out: all of it. */
  readonly columnDepthMm?: number;
  /** For `bay`: who it is, and what it keeps free on each side beyond its own length. */
  readonly id?: string;
  readonly beforeMm?: number;
  readonly afterMm?: number;
}

/** The part of a fit problem that the drawing decides: lengths, zones and corners of one run. */
export interface FitGeometry {
  readonly depthMm: number;
  readonly straights: readonly FitStraight[];
  readonly corners: readonly { readonly turnDeg: number }[];
}

/** One straight of a fit problem. Zones are sorted and never overlap within a kind. */
export interface FitStraight {
  readonly lengthMm: number;
  /** +/- of the length at k = 2. */
  readonly uncertaintyMm: number;
  /** The front is an arc of this radius; `outside` where the customer stands outside the circle. */
  readonly arc?: { readonly radiusMm: number; readonly front: 'outside' | 'inside' };
  readonly blocked: readonly (readonly [fromMm: number, toMm: number])[];
  readonly openings: readonly (readonly [fromMm: number, toMm: number])[];
  readonly bays: readonly {
    readonly id?: string;
    readonly fromMm: number;
    readonly toMm: number;
    readonly isLow?: true;
  }[];
  readonly columns: readonly { readonly fromMm: number; readonly toMm: number; readonly depthMm: number }[];
}

type Span = readonly [fromMm: number, toMm: number];

const wholeMicrometres = (mm: number): number => millimetresOf(micrometresOf(mm));

/** Sorted, with those that overlap or touch joined. */
function joinedSpans(spans: readonly Span[]): readonly Span[] {
  const joined: Span[] = [];
  for (const span of spans.toSorted((a, b) => a[0] - b[0] || a[1] - b[1])) {
    const last = joined.at(-1);
    if (last !== undefined && span[0] <= last[1])
      joined[joined.length - 1] = [last[0], Math.max(last[1], span[1])];
    else joined.push(span);
  }
  return joined;
}

/**
 * What the drawing contributes to a fit problem, every length in whole micrometres. The run must have no `runProblems`.
 *
 * @example fitGeometryOf(run, [], scale).straights[0] // { lengthMm: 6248, uncertaintyMm: 24.1, blocked: [], openings: [] }
 */
export function fitGeometryOf(run: TracedRun, zones: readonly MarkedZone[], scale: SheetScale): FitGeometry {
  const placed = zones.flatMap((marked) => {
    const { points, straight } = marked;
    const zone = straight === undefined ? zoneNear(run, points, scale) : zoneOn(run, straight, points, scale);
    return zone === undefined ? [] : [{ marked, zone }];
  });
  const isColumn = ({ kind, columnDepthMm }: MarkedZone): boolean =>
    kind === 'blocked' && columnDepthMm !== undefined && columnDepthMm < run.depthMm;
  const corners = cornersOf(run, scale.userUnit);
  /** Material of a straight reaches past an inside corner, as far as the other straight is deep. */
  const reachMm = (corner: number): number => ((corners[corner]?.turnDeg ?? 0) < 0 ? run.depthMm : 0);
  const zonesOf = (straight: number, lengthMm: number, plusMinusMm: number) => {
    const own = placed.filter(({ zone }) => zone.straight === straight);
    const settled = settledZones(
      own.map(({ marked, zone }) => {
        const [softBeforeMm, softAfterMm] = [marked.beforeMm ?? 0, marked.afterMm ?? 0];
        return {
          fromMm: wholeMicrometres(zone.fromMm - softBeforeMm),
          toMm: wholeMicrometres(zone.toMm + softAfterMm),
          softBeforeMm,
          softAfterMm,
          rank: isColumn(marked) ? 3 : { opening: 0, blocked: 1, bay: 2, low: 2 }[marked.kind],
        };
      }),
      { lowMm: -reachMm(straight - 1), highMm: lengthMm + reachMm(straight) },
      plusMinusMm,
    );
    return own
      .flatMap(({ marked }, index) => {
        const place = settled[index];
        return place ? [{ marked, ...place }] : [];
      })
      .toSorted((a, b) => a.fromMm - b.fromMm || a.toMm - b.toMm);
  };
  const spansOf = (
    zonesHere: ReturnType<typeof zonesOf>,
    isMeant: (marked: MarkedZone) => boolean,
  ): readonly Span[] =>
    joinedSpans(
      zonesHere.filter(({ marked }) => isMeant(marked)).map(({ fromMm, toMm }): Span => [fromMm, toMm]),
    );
  return {
    depthMm: run.depthMm,
    straights: straightsOf(run, scale).map(({ index, lengthMm, plusMinusMm, bend }) => {
      const here = zonesOf(index, wholeMicrometres(lengthMm), plusMinusMm);
      return {
        ...(bend ? { arc: { radiusMm: wholeMicrometres(bend.radiusMm), front: bend.front } } : {}),
        lengthMm: wholeMicrometres(lengthMm),
        uncertaintyMm: wholeMicrometres(plusMinusMm),
        blocked: spansOf(here, (marked) => marked.kind === 'blocked' && !isColumn(marked)),
        openings: spansOf(here, ({ kind }) => kind === 'opening'),
        // A low section's top runs on at its own height over the knee room, so nothing stands there either.
        bays: here
          .filter(({ marked: { kind } }) => kind === 'bay' || kind === 'low')
          .map(({ marked, fromMm, toMm }) => ({
            ...(marked.id === undefined ? {} : { id: marked.id }),
            fromMm,
            toMm,
            ...(marked.kind === 'low' ? { isLow: true as const } : {}),
          })),
        columns: here
          .filter(({ marked }) => isColumn(marked))
          .map(({ marked, fromMm, toMm }) => ({
            fromMm,
            toMm,
            depthMm: wholeMicrometres(marked.columnDepthMm ?? run.depthMm),
          })),
      };
    }),
    corners: corners.map(({ turnDeg, isTangent }) => ({
      turnDeg: isTangent ? 0 : turnDeg,
    })),
  };
}
