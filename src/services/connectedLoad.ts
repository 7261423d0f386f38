import type { ServicePoint } from './servicePoint.ts';

/** The connected electrical load of a project. */
export interface ConnectedLoad {
  /** Sum of the loads that the range states, kW, without diversity. */
  readonly totalKw: number;
  /** Power points without a stated load: how many. */
  readonly unstatedPoints: number;
}

/** Watts are exact enough for a nameplate, and their sum has no float dust. */
const wattsOf = (kw: number): number => Math.round(kw * 1000);

/** Sums the stated loads of the power points. */
export const connectedLoad = (points: readonly ServicePoint[]): ConnectedLoad => {
  const power = points.filter(({ kind }) => kind === 'power');
  return {
    totalKw: power.reduce((sum, { loadKw }) => sum + wattsOf(loadKw ?? 0), 0) / 1000,
    unstatedPoints: power.reduce((sum, { loadKw, count }) => sum + (loadKw === null ? count : 0), 0),
  };
};

/** A load that runs for three hours or more counts at 125 %. */
const CONTINUOUS_PERCENT = 125;

/**
 * The least rating of an overcurrent device by NEC 210.20(A) (read in a manufacturer's bulletin): not less than the
 * non-continuous load plus 125 % of the continuous load, where continuous means three hours or more. An example factor
 * for places under the National Electrical Code only; elsewhere other rules hold.
 *
 * @example leastRatingAmps({ continuousAmps: 16, otherAmps: 0 }) // 20
 */
export const leastRatingAmps = ({
  continuousAmps,
  otherAmps,
}: {
  readonly continuousAmps: number;
  readonly otherAmps: number;
}): number => otherAmps + (continuousAmps * CONTINUOUS_PERCENT) / 100;

/** Nominal voltages that only installations of the North American kind have. */
const NORTH_AMERICAN_VOLTS: ReadonlySet<number> = new Set([120, 208, 277, 480]);

/** A power point of the North American kind with the example factor applied. */
export interface ContinuousExample {
  readonly point: ServicePoint;
  readonly amps: number;
  readonly leastRatingAmps: number;
}

/**
 * The example of {@link leastRatingAmps} for every power point with a stated load whose connection names a North
 * American voltage, taken as one single-phase continuous load. Empty elsewhere: the rule does not hold there.
 */
export const continuousExamples = (points: readonly ServicePoint[]): readonly ContinuousExample[] =>
  points.flatMap((point) => {
    const volts = Number(/(\d+)\s*V\b/i.exec(point.connection)?.[1] ?? 0);
    if (point.kind !== 'power' || point.loadKw === null || !NORTH_AMERICAN_VOLTS.has(volts)) return [];
    const amps = wattsOf(point.loadKw) / point.count / volts;
    return [{ point, amps, leastRatingAmps: leastRatingAmps({ continuousAmps: amps, otherAmps: 0 }) }];
  });
