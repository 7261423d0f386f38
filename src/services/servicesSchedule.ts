import type { Run } from '../document/projectDocument.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { SheetScale } from '../measure/tracedRun.ts';
import type { RunZone } from '../measure/zonesOfRun.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { type ConnectedLoad, connectedLoad } from './connectedLoad.ts';
import type { DrainageSystem } from './dischargeUnits.ts';
import { fixtureUnitTotal } from './drainageFixtureUnits.ts';
import { type DrainageTotal, drainageTotal } from './drainageTotal.ts';
import { type WaterTotal, waterTotal } from './loadingUnits.ts';
import type { ServicePoint } from './servicePoint.ts';
import { servicePoints } from './servicePoints.ts';
import { BY_OTHERS_CAUTION, SERVICES_CAUTIONS } from './servicesCautions.ts';
import { type GapVerdict, gapVerdicts } from './servicesGap.ts';
import { type TradeTotal, tradeTotals } from './tradeTotals.ts';

/** A fitted run to bring services to. */
export interface ServedRun {
  readonly run: Run;
  readonly alternative: FitAlternative;
  readonly scale: SheetScale;
  /** Its bays are served too; left out: none. */
  readonly zones?: readonly RunZone[];
}

/** What comes up where for a whole project, and what that adds up to. */
export interface ServicesSchedule {
  readonly runs: readonly {
    readonly run: Run;
    readonly points: readonly ServicePoint[];
    readonly gaps: readonly GapVerdict[];
  }[];
  readonly trades: readonly TradeTotal[];
  readonly load: ConnectedLoad;
  readonly drainage: DrainageTotal;
  /** Drainage fixture units, for places that count in them. */
  readonly fixtureUnits: ReturnType<typeof fixtureUnitTotal>;
  readonly water: WaterTotal;
  readonly cautions: readonly string[];
}

/** The services rough-in schedule of fitted runs. `system` is the drainage system of EN 12056-2, by default I. */
export const servicesSchedule = (
  served: readonly ServedRun[],
  range: StockRange,
  system: DrainageSystem = 'I',
): ServicesSchedule => {
  const runs = served.map(({ run, alternative, scale, zones }) => {
    const points = servicePoints(run, alternative, range, scale, zones);
    return { run, points, gaps: gapVerdicts(points, range) };
  });
  const all = runs.flatMap(({ points }) => points);
  const items = new Map(range.items.map((item) => [item.id, item]));
  return {
    runs,
    trades: tradeTotals(all),
    load: connectedLoad(all),
    drainage: drainageTotal(all, (id) => items.get(id), system),
    fixtureUnits: fixtureUnitTotal(all, (id) => items.get(id)),
    water: waterTotal(all, (id) => items.get(id)),
    cautions: all.some(({ asker }) => asker.kind === 'bay')
      ? [...SERVICES_CAUTIONS, BY_OTHERS_CAUTION]
      : SERVICES_CAUTIONS,
  };
};
