import type { z } from 'zod';
import type { FitProblem } from './fitProblem.ts';

/** A refusal as the contract prints it: what is wrong, in words, and where. */
export interface ProblemError {
  readonly code: string;
  readonly message: string;
  readonly path: string;
}

interface Limits {
  readonly runLengthMm: number;
  readonly wantedPerStraight: number;
}

type Path = readonly (string | number)[];

const pathText = (path: Path): string => {
  let text = '';
  for (const step of path) text += typeof step === 'number' ? `[${step}]` : text === '' ? step : `.${step}`;
  return text === '' ? 'problem' : text;
};

const refuse = (code: string, path: Path, message: string): ProblemError => ({
  code,
  message: `${pathText(path)}: ${message}`,
  path: pathText(path),
});

const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (at, step) =>
      typeof at === 'object' && at !== null ? (at as Record<string | number, unknown>)[step] : undefined,
    value,
  );

const shown = (value: unknown): string => {
  if (typeof value === 'number' || typeof value === 'boolean' || value === null || value === undefined) {
    return String(value);
  }
  if (typeof value === 'string') return `"${value.slice(0, 40)}"`;
  return Array.isArray(value) ? `a list of ${value.length}` : `a value of type ${typeof value}`;
};

/** One zod issue in the words of the contract. */
export const firstIssueError = (value: unknown, issue: z.core.$ZodIssue): ProblemError => {
  const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
  const found = valueAt(value, path);
  if (issue.code === 'too_small') {
    if (issue.origin === 'array') {
      return refuse('too-few', path, `needs at least ${issue.minimum} entries, found ${shown(found)}.`);
    }
    if (issue.origin === 'string') return refuse('empty-text', path, 'must not be empty.');
    if (typeof found === 'number' && found < 0 && Number(issue.minimum) >= 0) {
      return refuse('negative', path, `must not be negative, found ${shown(found)}.`);
    }
    if (found === 0) return refuse('zero', path, 'must be more than 0.');
    return refuse('too-small', path, `must be at least ${issue.minimum}, found ${shown(found)}.`);
  }
  if (issue.code === 'too_big') {
    if (issue.origin === 'array') {
      return refuse('too-many', path, `may have ${issue.maximum} entries at most, found ${shown(found)}.`);
    }
    if (issue.origin === 'string')
      return refuse('text-too-long', path, `may have ${issue.maximum} characters at most.`);
    return refuse('too-large', path, `may be ${issue.maximum} at most, found ${shown(found)}.`);
  }
  if (issue.code === 'invalid_value') {
    return refuse(
      'unknown-value',
      path,
      `must be one of ${issue.values.map(String).join(', ')}; found ${shown(found)}.`,
    );
  }
  if (issue.code === 'invalid_type') {
    if (found === undefined) return refuse('missing', path, `is missing; expected ${issue.expected}.`);
    if (typeof found === 'number' && !Number.isFinite(found)) {
      return refuse('not-finite', path, `must be a finite number, found ${shown(found)}.`);
    }
    return refuse('wrong-type', path, `must be ${issue.expected}, found ${shown(found)}.`);
  }
  return refuse('bad-value', path, `${issue.message}; found ${shown(found)}.`);
};

const firstDuplicate = (list: readonly { readonly id: string }[], name: string): ProblemError | undefined => {
  const seen = new Map<string, number>();
  for (const [index, { id }] of list.entries()) {
    const before = seen.get(id);
    if (before !== undefined) {
      return refuse(
        'duplicate-id',
        [name, index, 'id'],
        `"${id}" is already the id of ${name}[${before}]; ids must differ.`,
      );
    }
    seen.set(id, index);
  }
  return undefined;
};

/** How far the material of a straight may reach beyond its traced start or end: only round an inside corner. */
const reachBeyondMm = (problem: FitProblem, corner: number): number => {
  const turnDeg = problem.corners?.[corner]?.turnDeg;
  if (turnDeg === undefined || turnDeg >= 0) return 0;
  const cladding = (problem.allowances?.claddingMm ?? 0) * Math.tan((Math.abs(turnDeg) * Math.PI) / 360);
  return problem.depthMm + cladding;
};

const zoneError = (problem: FitProblem, straight: number): ProblemError | undefined => {
  const { blocked = [], openings = [], bays = [], columns = [], lengthMm } = problem.straights[straight]!;
  const lowMm = -reachBeyondMm(problem, straight - 1);
  const highMm = lengthMm + reachBeyondMm(problem, straight);
  const zones = [
    ...blocked.map((zone, index) => ({ zone, path: ['straights', straight, 'blocked', index] })),
    ...openings.map((zone, index) => ({ zone, path: ['straights', straight, 'openings', index] })),
    ...bays.map(({ fromMm, toMm }, index) => ({
      zone: [fromMm, toMm] as const,
      path: ['straights', straight, 'bays', index],
    })),
    ...columns.map(({ fromMm, toMm }, index) => ({
      zone: [fromMm, toMm] as const,
      path: ['straights', straight, 'columns', index],
    })),
  ];
  for (const { zone, path } of zones) {
    if (!(zone[0] < zone[1])) {
      return refuse(
        'empty-zone',
        path,
        `must run from a lower to a higher place, found ${zone.join(' to ')}.`,
      );
    }
    if (zone[0] < lowMm || zone[1] > highMm) {
      return refuse(
        'zone-outside',
        path,
        `runs from ${zone[0]} to ${zone[1]}, but the straight runs from ${lowMm} to ${highMm}.`,
      );
    }
  }
  const sorted = [...zones].sort((a, b) => a.zone[0] - b.zone[0]);
  for (const [index, { zone, path }] of sorted.entries()) {
    const before = sorted[index - 1];
    if (before !== undefined && zone[0] < before.zone[1]) {
      return refuse(
        'zones-overlap',
        path,
        `overlaps ${pathText(before.path)} (${before.zone[0]} to ${before.zone[1]}); join or separate them.`,
      );
    }
  }
  return undefined;
};

const cornerError = (problem: FitProblem): ProblemError | undefined => {
  const corners = problem.corners ?? [];
  if (corners.length !== problem.straights.length - 1) {
    return refuse(
      'corner-count',
      ['corners'],
      `${problem.straights.length} straights need ${problem.straights.length - 1} corners, found ${corners.length}.`,
    );
  }
  for (const [index, { turnDeg, treatment }] of corners.entries()) {
    const isBesideArc = [index, index + 1].some((at) => problem.straights[at]?.arc !== undefined);
    if (isBesideArc && treatment !== undefined && treatment !== 'mitre') {
      return refuse(
        'treatment-beside-arc',
        ['corners', index, 'treatment'],
        `"${treatment}" needs two straights; beside an arc the fit chooses a wedge, or a plain joint where nothing turns. Let it choose.`,
      );
    }
    if (turnDeg === 0 && !isBesideArc) {
      return refuse('zero', ['corners', index, 'turnDeg'], 'a corner must turn; join the two straights.');
    }
    if (
      treatment !== undefined &&
      treatment !== 'mitre' &&
      Math.abs(Math.abs(turnDeg) - 90) > rightAngleToleranceDeg
    ) {
      return refuse(
        'treatment-needs-right-angle',
        ['corners', index, 'treatment'],
        `"${treatment}" needs a right angle within ${rightAngleToleranceDeg} degrees; a turn of ${turnDeg} takes a mitre.`,
      );
    }
  }
  return undefined;
};

/** An arc goes once round at most, and the back of one with the front outside keeps a radius. */
const arcError = (problem: FitProblem, straight: number): ProblemError | undefined => {
  const { arc, lengthMm } = problem.straights[straight]!;
  if (arc === undefined) return undefined;
  const takenMm = problem.depthMm + (problem.allowances?.claddingMm ?? 0);
  if (arc.front === 'outside' && arc.radiusMm <= takenMm) {
    return refuse(
      'radius-too-small',
      ['straights', straight, 'arc', 'radiusMm'],
      `a front of radius ${arc.radiusMm} leaves nothing at the back, ${takenMm} behind it; the radius must be more.`,
    );
  }
  const roundMm = 2 * Math.PI * arc.radiusMm;
  if (lengthMm > roundMm) {
    return refuse(
      'more-than-a-circle',
      ['straights', straight, 'lengthMm'],
      `an arc of radius ${arc.radiusMm} is ${roundMm.toFixed(3)} long once round, found ${lengthMm}.`,
    );
  }
  return undefined;
};

/** A corner counts as a right angle within this many degrees (DESIGN section 5). */
const rightAngleToleranceDeg = 0.5;

/** The checks that look at more than one field. */
const crossCheck = (problem: FitProblem, limits: Limits): ProblemError | undefined => {
  const { straights, stock, cornerUnits = [], wanted = [] } = problem;
  const totalMm = straights.reduce((sum, straight) => sum + straight.lengthMm, 0);
  if (totalMm > limits.runLengthMm) {
    return refuse(
      'run-too-long',
      ['straights'],
      `the run is ${totalMm} mm, the most is ${limits.runLengthMm} mm.`,
    );
  }
  const cornersWrong = cornerError(problem);
  if (cornersWrong !== undefined) return cornersWrong;
  for (const index of straights.keys()) {
    const error = arcError(problem, index) ?? zoneError(problem, index);
    if (error !== undefined) return error;
  }
  const duplicate =
    firstDuplicate(stock, 'stock') ??
    firstDuplicate(cornerUnits, 'cornerUnits') ??
    firstDuplicate(wanted, 'wanted');
  if (duplicate !== undefined) return duplicate;
  const items = new Set(stock.map((item) => item.id));
  const pairs = new Set<string>();
  for (const [index, { handOf }] of stock.entries()) {
    if (handOf === undefined) continue;
    if (items.has(handOf)) {
      return refuse(
        'duplicate-id',
        ['stock', index, 'handOf'],
        `"${handOf}" is the id of a stock item; a pair needs a name of its own.`,
      );
    }
    pairs.add(handOf);
  }
  const perStraight = new Map<number, number>();
  for (const [index, { item, hand, straight }] of wanted.entries()) {
    if (!items.has(item) && !pairs.has(item)) {
      return refuse('unknown-item', ['wanted', index, 'item'], `"${item}" is not in the stock range.`);
    }
    const isThatHand = (one: FitProblem['stock'][number]) =>
      (one.id === item || one.handOf === item) && one.hand === hand;
    if (hand !== undefined && !stock.some(isThatHand)) {
      return refuse('unknown-hand', ['wanted', index, 'hand'], `"${item}" is not made ${hand}-handed.`);
    }
    if (straight >= straights.length) {
      return refuse(
        'unknown-straight',
        ['wanted', index, 'straight'],
        `straight ${straight} is not in the run; straights count from 0 to ${straights.length - 1}.`,
      );
    }
    const count = (perStraight.get(straight) ?? 0) + 1;
    perStraight.set(straight, count);
    if (count > limits.wantedPerStraight) {
      return refuse(
        'too-many',
        ['wanted', index],
        `straight ${straight} may have ${limits.wantedPerStraight} wanted stations at most.`,
      );
    }
  }
  for (const [index, { straight, about }] of (problem.symmetrical ?? []).entries()) {
    if (straight >= straights.length) {
      return refuse(
        'unknown-straight',
        ['symmetrical', index, 'straight'],
        `straight ${straight} is not in the run; straights count from 0 to ${straights.length - 1}.`,
      );
    }
    if (about !== undefined && !wanted.some((wish) => wish.id === about && wish.straight === straight)) {
      return refuse(
        'unknown-station',
        ['symmetrical', index, 'about'],
        `no station "${about}" is wanted on straight ${straight}.`,
      );
    }
  }
  return undefined;
};

/** The first thing wrong with a problem: its shape and ranges, then what only shows when fields are seen together. */
export const firstProblemError = (
  value: unknown,
  parsed: z.ZodSafeParseResult<FitProblem>,
  limits: Limits,
): ProblemError | undefined => {
  if (!parsed.success) return firstIssueError(value, parsed.error.issues[0]!);
  return crossCheck(parsed.data, limits);
};
