import { describe, expect, it } from 'vitest';
import { shownAlternative } from '../../../renderer/fitting/fitWords.ts';
import { keptRunFit } from '../../../renderer/fitting/keptRunFit.ts';
import { withTriedFit } from '../../../renderer/fitting/tryFit.ts';
import type { ReadyRunFit, RunFit } from '../../../renderer/fitting/useRunFits.ts';
import type { RunId } from '../../../src/document/ids.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { canonicalProblem } from '../../../src/fitting/problemHash.ts';
import { parseProblem } from '../../../src/fitting/problemSchema.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { fittingStock } from '../../../src/stock/fittingStock.ts';

const parsed = parseProblem({
  depthMm: 700,
  straights: [{ lengthMm: 6248 }],
  ends: [{ kind: 'wall' }, { kind: 'wall' }],
  fillerMaxMm: 150,
  ...fittingStock(demoRange),
});
if (!parsed.ok) throw new Error(parsed.error.message);
const { problem } = parsed;
const problemKey = `best ${canonicalProblem(problem)}`;
const answer = fitRun(problem, { alternatives: 4 });
const [best, second] = answer.alternatives;
if (!best || !second) throw new Error('two fits are needed');

const keptWith = (changes: object) =>
  keptRunFit(
    {
      runId: 'run-1' as never,
      problem: problemKey,
      solverVersion: '2',
      alternative: JSON.stringify(second),
      explanation: '',
      ...changes,
    },
    { problemKey, answer, solverVersion: '2' },
  );
/** A layout that the solver does not give: a piece more at nobody's wish. */
const foreign = JSON.stringify({ ...best, pieces: [...best.pieces, best.pieces[0]] });

describe('a kept fit', () => {
  it('is current while it answers the run as it is', () => {
    expect(keptWith({})).toMatchObject({ isCurrent: true, isOutdone: false });
    expect(keptWith({ problem: `price ${canonicalProblem(problem)}` })).toMatchObject({ isCurrent: false });
  });

  it('is outdone only where a newer solver gives other fits', () => {
    expect(keptWith({ solverVersion: '1', alternative: foreign }).isOutdone).toBe(true);
    expect(keptWith({ solverVersion: '1' }).isOutdone).toBe(false);
    expect(keptWith({ alternative: foreign }).isOutdone).toBe(false);
  });

  it('is recognised whatever reason it was shown for', () => {
    const alternative = JSON.stringify({ ...second, reason: 'As an older version worded it.' });
    expect(keptWith({ solverVersion: '1', alternative }).isOutdone).toBe(false);
  });
});

describe('the fit that is drawn', () => {
  const fit: ReadyRunFit = {
    status: 'ready',
    problem,
    canonical: problemKey,
    answer,
    kept: null,
    hasAlternatives: true,
  };
  const runId = 'run-1' as RunId;
  const fits: ReadonlyMap<RunId, RunFit> = new Map([[runId, fit]]);
  const drawn = (of: ReadonlyMap<RunId, RunFit>) => shownAlternative(of.get(runId));

  it('is the kept one while it is current, else the best', () => {
    expect(drawn(fits)).toBe(best);
    expect(shownAlternative({ ...fit, kept: keptWith({}) })).toEqual(second);
    expect(shownAlternative({ ...fit, kept: keptWith({ problem: 'another' }) })).toBe(best);
  });

  it('is the one looked at, for as long as the run stays as it was', () => {
    const tried = { runId, canonical: problemKey, alternative: second };
    expect(drawn(withTriedFit(fits, tried))).toBe(second);
    expect(withTriedFit(fits, null)).toBe(fits);
    expect(withTriedFit(fits, { ...tried, canonical: 'another' })).toBe(fits);
  });

  it('is the last one while a run is fitted anew', () => {
    expect(shownAlternative({ status: 'fitting', problem, canonical: 'x', before: best })).toBe(best);
    expect(shownAlternative({ status: 'fitting', problem, canonical: 'x', before: null })).toBeNull();
  });
});
