import { verdictWord } from '../../quote/schedule.ts';
import { pieceChanges } from './pieceChanges.ts';
import { sameLengthMm, type TakeoffChange } from './takeoffChange.ts';
import type { RunFacts } from './takeoffFacts.ts';

type Straight = RunFacts['straights'][number];
type Leftover = RunFacts['leftovers'][number];

/**
 * Whether two lengths differ by more than both their uncertainties allow: for independent quantities the variances of a
 * difference add (JCGM 100:2008, 5.1.2), here at k = 2.
 */
const differs = (before: Straight, after: Straight): boolean => {
  const difference = Math.abs(before.lengthMm - after.lengthMm);
  return difference > sameLengthMm && difference > Math.hypot(before.plusMinusMm, after.plusMinusMm);
};

const lengthOf = ({ lengthMm, plusMinusMm }: Straight) => ({ lengthMm, plusMinusMm });

const lengthChanges = (before: RunFacts, after: RunFacts): readonly TakeoffChange[] => {
  const where = after.name;
  const changes: TakeoffChange[] = [];
  const known = new Map(before.straights.map((straight) => [straight.vertexId, straight]));
  for (const [index, straight] of after.straights.entries()) {
    const what = `Straight ${index + 1}`;
    const was = known.get(straight.vertexId);
    known.delete(straight.vertexId);
    if (!was)
      changes.push({ kind: 'length', where, what: `${what} is new`, was: null, is: lengthOf(straight) });
    else if (differs(was, straight))
      changes.push({ kind: 'length', where, what, was: lengthOf(was), is: lengthOf(straight) });
  }
  for (const straight of known.values()) {
    const what = `Straight ${before.straights.indexOf(straight) + 1} as it was counted then is gone`;
    changes.push({ kind: 'length', where, what, was: lengthOf(straight), is: null });
  }
  if (Math.abs(before.depthMm - after.depthMm) > sameLengthMm)
    changes.push({
      kind: 'length',
      where,
      what: 'Depth',
      was: { lengthMm: before.depthMm },
      is: { lengthMm: after.depthMm },
    });
  return changes;
};

const cornerChanges = (before: RunFacts, after: RunFacts): readonly TakeoffChange[] =>
  Array.from({ length: Math.max(before.corners.length, after.corners.length) }, (_, index) => {
    const [was, is] = [before.corners[index], after.corners[index]];
    const mark = is?.mark ?? was?.mark ?? '';
    return { was: was?.made ?? null, is: is?.made ?? null, mark };
  })
    .filter(({ was, is }) => was !== is)
    .map(({ was, is, mark }) => ({
      kind: 'corner' as const,
      where: after.name,
      what: `Corner ${mark}`,
      was: was === null ? null : was.replaceAll('-', ' '),
      is: is === null ? null : is.replaceAll('-', ' '),
    }));

const verdictOf = ({ verdict, confirmed }: Leftover): string =>
  `${verdictWord(verdict)}${confirmed ? '' : ', measure on site'}`;

const leftoverChanges = (before: RunFacts, after: RunFacts): readonly TakeoffChange[] => {
  const where = after.name;
  const changes: TakeoffChange[] = [];
  const vertices = [...new Set([...before.straights, ...after.straights].map(({ vertexId }) => vertexId))];
  const of = (run: RunFacts, vertexId: string): readonly Leftover[] =>
    run.leftovers
      .filter(({ straight }) => run.straights[straight]?.vertexId === vertexId)
      .toSorted((one, other) => one.fromMm - other.fromMm);
  for (const vertexId of vertices) {
    const [earlier, later] = [of(before, vertexId), of(after, vertexId)];
    for (let index = 0; index < Math.max(earlier.length, later.length); index += 1) {
      const [was, is] = [earlier[index], later[index]];
      const what = `Leftover ${is?.mark ?? was?.mark ?? ''}`;
      if (!was || !is) {
        const change = was
          ? `${what}, ${verdictOf(was)}, is gone`
          : `${what}, ${is ? verdictOf(is) : ''}, is new`;
        changes.push({
          kind: 'leftover',
          where,
          what: change,
          was: was ? { lengthMm: was.widthMm } : null,
          is: is ? { lengthMm: is.widthMm } : null,
        });
        continue;
      }
      if (Math.abs(was.widthMm - is.widthMm) > sameLengthMm)
        changes.push({
          kind: 'leftover',
          where,
          what: `${what}, width`,
          was: { lengthMm: was.widthMm },
          is: { lengthMm: is.widthMm },
        });
      if (verdictOf(was) !== verdictOf(is))
        changes.push({
          kind: 'leftover',
          where,
          what: `${what}, verdict`,
          was: verdictOf(was),
          is: verdictOf(is),
        });
    }
  }
  return changes;
};

/** What changed about the runs: which there are, their names and lengths, what stands in them and what is left over. */
export const runChanges = (
  before: readonly RunFacts[],
  after: readonly RunFacts[],
): readonly TakeoffChange[] => {
  const changes: TakeoffChange[] = [];
  const known = new Map(before.map((run) => [run.id, run]));
  const wholeOf = ({ straights, notFitted }: RunFacts) =>
    notFitted === null
      ? { lengthMm: straights.reduce((sum, { lengthMm }) => sum + lengthMm, 0) }
      : 'without a fit';
  for (const run of after) {
    const was = known.get(run.id);
    known.delete(run.id);
    const where = run.name;
    if (!was) {
      changes.push({ kind: 'run', where, what: 'Run is new', was: null, is: wholeOf(run) });
      continue;
    }
    if (was.name !== run.name)
      changes.push({ kind: 'run', where, what: 'Run has another name', was: was.name, is: run.name });
    if (was.notFitted !== null || run.notFitted !== null) {
      if ((was.notFitted === null) !== (run.notFitted === null))
        changes.push({
          kind: 'run',
          where,
          what: run.notFitted === null ? 'Run has a fit' : 'Run has no fit any more',
          was: wholeOf(was),
          is: wholeOf(run),
        });
      continue;
    }
    changes.push(
      ...lengthChanges(was, run),
      ...cornerChanges(was, run),
      ...pieceChanges(was, run),
      ...leftoverChanges(was, run),
    );
  }
  for (const run of known.values())
    changes.push({ kind: 'run', where: run.name, what: 'Run is gone', was: wholeOf(run), is: null });
  return changes;
};
