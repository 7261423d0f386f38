import { checkedArcMitre } from './checkedArcs.ts';
import type { FitAlternative } from './fitAnswer.ts';
import type { FitViolation } from './fitViolation.ts';
import type { FitProblem } from './problemSchema.ts';

/** A corner as the checker reads it from the answer, in mm. */
interface CheckedCorner {
  readonly offBeforeMm: number;
  readonly offAfterMm: number;
  /** The length of each straight that a stock corner unit stands on. */
  readonly unitMm: number;
  readonly isUnit: boolean;
  readonly isWedge: boolean;
  readonly price: number;
}

/** A length that may hold pieces, as the checker reads it: each side's lowest and highest place in mm. */
export interface CheckedSpan {
  readonly straight: number;
  readonly lowMm: readonly [number, number];
  readonly highMm: readonly [number, number];
  readonly lowExposed: boolean;
  readonly highExposed: boolean;
}

/** What the answer's corners take off the straights, after DESIGN section 5; nothing where they can't be read. */
export const checkedCorners = (
  problem: FitProblem,
  alternative: FitAlternative,
  path: string,
  violations: FitViolation[],
): readonly CheckedCorner[] | undefined => {
  const turns = problem.corners ?? [];
  if (alternative.corners.length !== turns.length) {
    violations.push({
      code: 'corner-count',
      message: `The run has ${turns.length} corners, the answer ${alternative.corners.length}.`,
      path: `${path}.corners`,
    });
    return undefined;
  }
  const result: CheckedCorner[] = [];
  for (const [index, corner] of alternative.corners.entries()) {
    const { turnDeg, treatment } = turns[index]!;
    const at = `${path}.corners[${index}]`;
    const refuse = (code: string, message: string) => violations.push({ code, message, path: at });
    if (treatment !== undefined && treatment !== corner.treatment) {
      refuse('pin-ignored', `The corner is pinned to ${treatment}.`);
    }
    const isBesideArc = [index, index + 1].some((side) => problem.straights[side]?.arc !== undefined);
    if (isBesideArc) {
      const expected = turnDeg === 0 ? 'joint' : 'mitre';
      if (corner.treatment !== expected)
        refuse('wrong-beside-arc', `Beside an arc this corner is a ${expected}.`);
      const offs = turnDeg === 0 ? { beforeMm: 0, afterMm: 0 } : checkedArcMitre(problem, index);
      if (offs === undefined) {
        refuse('straight-too-short', 'The lines behind the two fronts do not meet.');
        return undefined;
      }
      result.push({
        offBeforeMm: offs.beforeMm,
        offAfterMm: offs.afterMm,
        unitMm: 0,
        isUnit: false,
        isWedge: turnDeg !== 0,
        price: 0,
      });
      continue;
    }
    const squareWithinDeg = Math.abs(90 - Math.abs(turnDeg));
    if (squareWithinDeg > 0.5 && corner.treatment !== 'mitre')
      refuse('needs-mitre', 'Only a mitre turns this angle.');
    if (squareWithinDeg <= 0.5 && corner.treatment === 'mitre' && treatment !== 'mitre') {
      refuse('mitre-not-pinned', 'At a right angle a mitre must be pinned.');
    }
    const frontOutside = turnDeg > 0;
    const tangent = Math.tan(((Math.abs(turnDeg) / 2) * Math.PI) / 180);
    const claddingMm = (problem.allowances?.claddingMm ?? 0) * tangent * (frontOutside ? 1 : -1);
    let beforeMm = 0;
    let afterMm = 0;
    let price = 0;
    if (corner.treatment === 'first-through') {
      if (frontOutside) afterMm = problem.depthMm;
      else beforeMm = -problem.depthMm;
    } else if (corner.treatment === 'second-through') {
      if (frontOutside) beforeMm = problem.depthMm;
      else afterMm = -problem.depthMm;
    } else if (corner.treatment === 'mitre') {
      if (frontOutside) {
        beforeMm = problem.depthMm * tangent;
        afterMm = beforeMm;
      }
    } else {
      const unit = problem.cornerUnits?.find(({ id }) => id === corner.item);
      if (unit === undefined) {
        refuse('unknown-corner-unit', `There is no corner unit "${corner.item}".`);
        return undefined;
      }
      if (unit.sizeMm < problem.depthMm)
        refuse('corner-unit-too-small', 'The corner unit is less than the depth.');
      if (problem.maxWidthMm !== undefined && unit.sizeMm > problem.maxWidthMm) {
        refuse('too-wide', `A corner unit of ${unit.sizeMm} is wider than ${problem.maxWidthMm}.`);
      }
      beforeMm = frontOutside ? unit.sizeMm : unit.sizeMm - problem.depthMm;
      afterMm = beforeMm;
      price = unit.price ?? 0;
    }
    result.push({
      offBeforeMm: beforeMm + claddingMm,
      offAfterMm: afterMm + claddingMm,
      unitMm: corner.treatment === 'corner-unit' ? beforeMm : 0,
      isUnit: corner.treatment === 'corner-unit',
      isWedge: corner.treatment === 'mitre',
      price,
    });
  }
  return result;
};

type Place = readonly [number, number];

/** The lengths between sides, zones and openings in which pieces may stand. */
export const checkedSpans = (
  problem: FitProblem,
  corners: readonly CheckedCorner[],
  alternative: FitAlternative,
  path: string,
  violations: FitViolation[],
): readonly CheckedSpan[] => {
  const isPassed = (straight: number, column: number) =>
    alternative.passedColumns?.some((one) => one.straight === straight && one.column === column) ?? false;
  const { scribeMm = 0, endPanelMm = 0 } = problem.allowances ?? {};
  const [start, end] = problem.ends;
  const spans: CheckedSpan[] = [];
  for (const [straight, { lengthMm, ...parts }] of problem.straights.entries()) {
    const { blocked = [], openings = [], bays = [], columns = [] } = parts;
    const before = corners[straight - 1];
    const after = corners[straight];
    const lowExposed = before === undefined && start.kind === 'exposed';
    const highExposed = after === undefined && end.kind === 'exposed';
    const startMm = start.kind === 'meets' ? 0 : scribeMm;
    let low: Place = [startMm, startMm];
    if (before) low = [before.offAfterMm, before.offAfterMm];
    else if (lowExposed) low = [endPanelMm - (start.giveMm?.[1] ?? 0), endPanelMm + (start.giveMm?.[0] ?? 0)];
    const endMm = lengthMm - (end.kind === 'meets' ? 0 : scribeMm);
    let high: Place = [endMm, endMm];
    if (after) high = [lengthMm - after.offBeforeMm, lengthMm - after.offBeforeMm];
    else if (highExposed) {
      const atMm = lengthMm - endPanelMm;
      high = [atMm - (end.giveMm?.[0] ?? 0), atMm + (end.giveMm?.[1] ?? 0)];
    }
    const placeOf = ({ fromMm, toMm }: { fromMm: number; toMm: number }) => [fromMm, toMm] as const;
    const stops = columns.filter((_, index) => !isPassed(straight, index));
    const zones = [...blocked, ...openings, ...bays.map(placeOf), ...stops.map(placeOf)].sort(
      (a, b) => a[0] - b[0],
    );
    const unitStandsIn = (fromMm: number, toMm: number) =>
      [...zones, ...columns.map(placeOf)].some((zone) => zone[0] < toMm - 0.002 && zone[1] > fromMm + 0.002);
    if (
      (before && before.unitMm > 0 && unitStandsIn(low[0] - before.unitMm, low[0])) ||
      (after && after.unitMm > 0 && unitStandsIn(high[0], high[0] + after.unitMm))
    ) {
      violations.push({
        code: 'corner-unit-in-zone',
        message: `A corner unit stands in a blocked zone or an opening of straight ${straight}.`,
        path: `${path}.corners`,
      });
    }
    if (low[0] > high[1] + 0.002) {
      violations.push({
        code: 'straight-too-short',
        message: `Straight ${straight} is shorter than its corners and ends take.`,
        path: `${path}.corners`,
      });
    }
    let side: { place: Place; exposed: boolean } = { place: low, exposed: lowExposed };
    for (const zone of zones) {
      if (zone[1] <= low[0] || zone[0] >= high[1]) continue;
      spans.push({
        straight,
        lowMm: side.place,
        lowExposed: side.exposed,
        highMm: [zone[0], zone[0]],
        highExposed: false,
      });
      side = { place: [zone[1], zone[1]], exposed: false };
    }
    spans.push({ straight, lowMm: side.place, lowExposed: side.exposed, highMm: high, highExposed });
  }
  return spans;
};
