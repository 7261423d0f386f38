import { describe, expect, it } from 'vitest';
import { combineEvidence, type ScaleEvidence } from '../../src/scale/combineEvidence.ts';
import { printedFactor } from '../../src/scale/printedFactor.ts';

const evidence = (
  kind: ScaleEvidence['kind'],
  ratio: number,
  relativeUncertainty = 0.003,
): ScaleEvidence => ({ kind, ratio, relativeUncertainty });

describe('combined evidence', () => {
  it('is none without evidence and single with one kind, however many', () => {
    expect(combineEvidence([])).toEqual({
      ratio: null,
      relativeUncertainty: null,
      status: 'none',
      evidence: [],
    });
    expect(combineEvidence([evidence('note', 50)])).toMatchObject({ ratio: 50, status: 'single' });
    expect(combineEvidence([evidence('note', 50), evidence('note', 50.01)]).status).toBe('single');
  });

  it('agrees where two kinds meet within their uncertainty, and is surer than each', () => {
    const verdict = combineEvidence([evidence('note', 50), evidence('dimensions', 50.02, 0.0004)]);
    expect(verdict.status).toBe('agreed');
    expect(verdict.ratio! / 50.02).toBeCloseTo(1, 4);
    expect(verdict.relativeUncertainty).toBeLessThan(0.0004);
    expect(verdict.evidence.map(({ kind }) => kind)).toEqual(['dimensions', 'note']);
  });

  it('lets dimensions win over a lying note and says that they conflict', () => {
    const verdict = combineEvidence([evidence('note', 50), evidence('dimensions', 100, 0.0004)]);
    expect(verdict).toMatchObject({ status: 'conflict', ratio: 100 });
  });

  it('finds the note that agrees among several', () => {
    const notes = [evidence('note', 5), evidence('note', 50), evidence('note', 10)];
    expect(combineEvidence([...notes, evidence('dimensions', 50, 0.001)]).status).toBe('agreed');
    expect(combineEvidence(notes)).toMatchObject({ status: 'none', ratio: null });
  });

  it('lets a picked dimension always win, unchanged', () => {
    const verdict = combineEvidence([evidence('dimensions', 50, 0.0002), evidence('picked', 50.1, 0.004)]);
    expect(verdict).toMatchObject({ status: 'agreed', ratio: 50.1, relativeUncertainty: 0.004 });
    expect(
      combineEvidence([evidence('dimensions', 50, 0.0002), evidence('picked', 55, 0.004)]),
    ).toMatchObject({ status: 'conflict', ratio: 55 });
  });
});

describe('printed factor', () => {
  // ISO 216: each size halves the area of the one before, so A1 to A3 is 0.5 and A1 to A2 is 1/sqrt 2.
  it('is exact between ISO A sizes', () => {
    expect(printedFactor({ widthMm: 420, heightMm: 297, name: 'A3' }, 'A1')).toBeCloseTo(0.5, 12);
    expect(printedFactor({ widthMm: 594, heightMm: 420, name: 'A2' }, 'A1')).toBeCloseTo(Math.SQRT1_2, 12);
    expect(printedFactor({ widthMm: 594, heightMm: 841, name: 'A1' }, 'A1')).toBeCloseTo(1, 12);
  });

  // ANSI D (22 x 34 in) to ANSI B (11 x 17 in) is exactly one half.
  it('is the ratio of the sides for other sizes, and none for another shape', () => {
    expect(printedFactor({ widthMm: 17 * 25.4, heightMm: 11 * 25.4, name: 'ANSI B' }, 'ANSI D')).toBeCloseTo(
      0.5,
      12,
    );
    expect(printedFactor({ widthMm: 1000, heightMm: 200, name: 'custom' }, 'A1')).toBeUndefined();
    expect(printedFactor({ widthMm: 420, heightMm: 297, name: 'A3' }, 'Z9')).toBeUndefined();
  });
});
