import type { DrawingUnit } from './dimensionText.ts';

/** One independent reason to believe a scale. */
export interface ScaleEvidence {
  readonly kind: 'picked' | 'dimensions' | 'measure-dictionary' | 'note';
  readonly ratio: number;
  /** Expanded, k = 2. */
  readonly relativeUncertainty: number;
  readonly unit?: DrawingUnit;
  readonly unitAssumed?: boolean;
  /** The note as written. */
  readonly text?: string;
  /** How many dimensions agree, of how many that look like one. */
  readonly supporting?: number;
  readonly of?: number;
}

export interface ScaleVerdict {
  /** Real mm per paper mm; null where nothing proves one. */
  readonly ratio: number | null;
  /** Expanded, k = 2; null without a ratio. */
  readonly relativeUncertainty: number | null;
  /** `agreed`: two kinds within their uncertainty; `single`: one kind; `conflict`: kinds that disagree; `none`. */
  readonly status: 'agreed' | 'conflict' | 'single' | 'none';
  /** Best first: picked, then dimensions, embedded measure, notes. */
  readonly evidence: readonly ScaleEvidence[];
}

/** A drawing's own dimensions prove; an embedded measure may be of another space; a note only claims. */
const STRENGTH = { picked: 3, dimensions: 2, 'measure-dictionary': 1, note: 0 } as const;

/** Agreement is looked for within this share beyond what the evidence says of itself. */
const TOLERANCE = 0.001;

/**
 * Weighs the evidence for one sheet or view. The strongest kind gives the ratio; the others confirm or contradict it.
 * Several notes count as one kind: it agrees where one of them does, and proves nothing where they differ and stand
 * alone. Agreeing kinds sharpen the ratio by their weighted mean, except that a picked dimension always wins.
 */
export const combineEvidence = (evidence: readonly ScaleEvidence[]): ScaleVerdict => {
  const sorted = [...evidence].sort(
    (a, b) => STRENGTH[b.kind] - STRENGTH[a.kind] || a.relativeUncertainty - b.relativeUncertainty,
  );
  const leader = sorted[0];
  if (!leader) return { ratio: null, relativeUncertainty: null, status: 'none', evidence: [] };
  const sameKind = sorted.filter(({ kind }) => kind === leader.kind);
  if (sameKind.some((other) => !doAgree(leader, other))) {
    const settled = settledByOthers(sorted, leader.kind);
    if (!settled) return { ratio: null, relativeUncertainty: null, status: 'none', evidence: sorted };
    return verdictOf(settled, sorted);
  }
  return verdictOf(leader, sorted);
};

/** Where items of the strongest kind differ, the one that a weaker kind confirms. */
const settledByOthers = (
  sorted: readonly ScaleEvidence[],
  kind: ScaleEvidence['kind'],
): ScaleEvidence | undefined =>
  sorted.find(
    (item) => item.kind === kind && sorted.some((other) => other.kind !== kind && doAgree(item, other)),
  );

const verdictOf = (leader: ScaleEvidence, sorted: readonly ScaleEvidence[]): ScaleVerdict => {
  const agreeing: ScaleEvidence[] = [leader];
  let isContradicted = false;
  const kinds = new Set(sorted.map(({ kind }) => kind));
  kinds.delete(leader.kind);
  for (const kind of kinds) {
    const items = sorted.filter((item) => item.kind === kind);
    const agreed = items.find((item) => doAgree(leader, item));
    if (agreed) agreeing.push(agreed);
    else isContradicted = true;
  }
  const best = leader.kind === 'picked' || agreeing.length === 1 ? leader : weightedMean(agreeing);
  return {
    ratio: best.ratio,
    relativeUncertainty: best.relativeUncertainty,
    status: isContradicted ? 'conflict' : agreeing.length > 1 ? 'agreed' : 'single',
    evidence: sorted,
  };
};

/** Whether two pieces of evidence agree within their expanded uncertainties. */
export const doAgree = (a: ScaleEvidence, b: ScaleEvidence): boolean =>
  Math.abs(Math.log(a.ratio / b.ratio)) <=
  Math.hypot(a.relativeUncertainty, b.relativeUncertainty) + TOLERANCE;

const weightedMean = (
  items: readonly ScaleEvidence[],
): { readonly ratio: number; readonly relativeUncertainty: number } => {
  let sum = 0;
  let sumWeight = 0;
  for (const { ratio, relativeUncertainty } of items) {
    const weight = 1 / relativeUncertainty ** 2;
    sum += weight * Math.log(ratio);
    sumWeight += weight;
  }
  return { ratio: Math.exp(sum / sumWeight), relativeUncertainty: 1 / Math.sqrt(sumWeight) };
};
