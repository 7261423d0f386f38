import { widthLimitOf } from '../access/widestModule.ts';
import type { RunId } from '../document/ids.ts';
import type { ProjectDocument, Run } from '../document/projectDocument.ts';
import { documentAsMeasured } from '../measure/documentAsMeasured.ts';
import { fitGeometryOf, type MarkedZone } from '../measure/fitGeometry.ts';
import { runAsTraced } from '../measure/runAsTraced.ts';
import { positionAlong } from '../measure/runPosition.ts';
import { runProblems } from '../measure/runProblems.ts';
import { scaleOfRun } from '../measure/scaleOfSheet.ts';
import { isFirstPointOnCustomersLeft } from '../measure/unrolled.ts';
import { isBadInput } from '../scale/badInput.ts';
import { fittingStock } from '../stock/fittingStock.ts';
import { handPairOf } from '../stock/handPair.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { canonicalProblem } from './problemHash.ts';
import { type FitOrder, type FitProblem, parseProblem } from './problemSchema.ts';

export type Posed =
  | {
      readonly ok: true;
      readonly problem: FitProblem;
      readonly order: FitOrder;
      /** The order and the problem as one stable string: by it a kept fit knows what it answers. */
      readonly key: string;
    }
  | { readonly ok: false; readonly code: string; readonly message: string };

const refused = (code: string, message: string): Posed => ({ ok: false, code, message });

/** How far a curved top may overhang a straight front where the range does not say (common practice, no source). */
const usualOverhangMm = 60;

const wholeMicrometres = (mm: number): number => Math.round(mm * 1000) / 1000;

const endOf = ({ kind, giveInMm, giveOutMm }: Run['ends'][number]): FitProblem['ends'][number] =>
  kind === 'exposed' ? { kind, giveMm: [giveInMm, giveOutMm] } : { kind };

/**
 * What a kept fit answers: the prices of made-to-measure pieces only add alternatives to it, and lists that are empty
 * say nothing, so that a fit kept before they were posed still holds.
 */
const answered = ({ madeToMeasure, ...problem }: FitProblem): FitProblem => ({
  ...problem,
  straights: problem.straights.map(({ bays, columns, ...straight }) => ({
    ...straight,
    ...(bays && bays.length > 0 ? { bays } : {}),
    ...(columns && columns.length > 0 ? { columns } : {}),
  })),
});

/**
 * The fitting problem that a run of a project poses at the scale of its sheet, with a stock range: lengths and zones
 * from what was drawn, or measured on site, all else from the run's settings. A run tied to the chosen way in takes nothing wider than what
 * passes. The same project always poses the same problem.
 */
export const poseProblem = (traced: ProjectDocument, runId: RunId, range: StockRange): Posed => {
  const document = documentAsMeasured(traced);
  const run = document.runs[runId];
  if (!run) return refused('run-missing', 'That run is no longer in the project.');
  const scale = scaleOfRun(document, run);
  if (!scale)
    return refused(
      'scale-missing',
      `Set the scale of the sheet first: without it ${run.name} has no length.`,
    );
  if (isBadInput(scale)) return refused(scale.error.code, `${run.name}: ${scale.error.message}`);
  const front = runAsTraced(run);
  const wrong = runProblems(front, scale)[0];
  if (wrong) return refused(wrong.code, `${run.name}: ${wrong.message}`);

  const straightOf = (vertexId: string) => run.frontLine.findIndex(({ id }) => id === vertexId);
  const byId = <Record extends { readonly id: string; readonly runId: RunId }>(records: {
    readonly [id: string]: Record;
  }) =>
    Object.values(records)
      .filter((record) => record.runId === runId)
      .sort((one, other) => (one.id < other.id ? -1 : 1));

  const zones = byId(document.zones).map(
    (zone): MarkedZone => ({
      id: zone.id,
      kind: zone.kind,
      points: [zone.a, zone.b],
      straight: straightOf(zone.vertexId),
      ...(zone.columnDepthMm ? { columnDepthMm: zone.columnDepthMm } : {}),
      ...(zone.kind === 'bay' && zone.clearance
        ? { beforeMm: zone.clearance.beforeMm, afterMm: zone.clearance.afterMm }
        : {}),
    }),
  );
  const geometry = fitGeometryOf(front, zones, scale);
  const wanted = byId(document.stations).map(({ id, item, vertexId, at, withinMm, hand }) => {
    const straight = straightOf(vertexId);
    const inRange = range.items.find((one) => one.id === item);
    const pair = inRange && handPairOf(range, inRange);
    return {
      id,
      item: pair ?? item,
      ...(pair && hand ? { hand } : {}),
      straight,
      nearMm: wholeMicrometres(positionAlong(front, straight, at, scale)),
      withinMm,
    };
  });
  const { stock, cornerUnits } = fittingStock(range, { depthMm: run.depthMm, hands: true });
  const isHanded = stock.some(({ hand }) => hand !== undefined);
  const unknown = wanted.find(({ item }) => !stock.some(({ id, handOf }) => id === item || handOf === item));
  if (unknown)
    return refused(
      'station-not-in-range',
      `${run.name} wants "${unknown.item}", which the stock range ${range.name} does not have at ${run.depthMm} mm depth. Choose another station.`,
    );

  const limit = widthLimitOf(document, run, range);
  if (limit.status === 'nothing-passes')
    return refused('nothing-passes-way-in', `${run.name}: ${limit.message}`);
  const maxWidthMm = Math.min(
    run.maxWidthMm ?? Number.POSITIVE_INFINITY,
    limit.status === 'limited' ? limit.widthMm : Number.POSITIVE_INFINITY,
  );
  const symmetrical = (run.symmetrical ?? []).flatMap(({ vertexId, aboutStationId }) => {
    const straight = straightOf(vertexId);
    const about = wanted.find(({ id, straight: on }) => id === aboutStationId && on === straight);
    if (straight < 0 || (aboutStationId !== null && !about)) return [];
    return [{ straight, ...(about ? { about: about.id } : {}) }];
  });
  const parsed = parseProblem({
    ...geometry,
    corners: geometry.corners.map((corner, index) => {
      const treatment = run.frontLine[index + 1]?.treatment;
      // Where an arc goes on without a turn there is no corner left to be made as pinned.
      return treatment && corner.turnDeg !== 0 ? { ...corner, treatment } : corner;
    }),
    ends: run.ends.map(endOf),
    stock,
    // What a customer has on the left, the bartender has on the right.
    ...(isHanded ? { startHand: isFirstPointOnCustomersLeft(run) ? 'right' : 'left' } : {}),
    cornerUnits,
    wanted,
    allowances: run.allowances,
    fillerMaxMm: run.fillerMaxMm,
    hostMarginMm: run.hostMarginMm,
    ...(Number.isFinite(maxWidthMm) ? { maxWidthMm } : {}),
    madeToMeasure: {
      price: range.madeToMeasure.price,
      pricePerMm: range.madeToMeasure.pricePerMm,
      wideningMaxMm: range.madeToMeasure.wideningMaxMm,
      wideningPrice: range.madeToMeasure.wideningPrice,
    },
    ...(symmetrical.length > 0 ? { symmetrical } : {}),
    ...(geometry.straights.some(({ arc }) => arc)
      ? { overhangMaxMm: range.madeToMeasure.overhangMaxMm ?? usualOverhangMm }
      : {}),
  });
  if (!parsed.ok) return refused(parsed.error.code, `${run.name}: ${parsed.error.message}`);
  const { problem } = parsed;
  return { ok: true, problem, order: run.order, key: `${run.order} ${canonicalProblem(answered(problem))}` };
};
