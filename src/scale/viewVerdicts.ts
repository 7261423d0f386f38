import type { Box } from '../geometry/box.ts';
import { combineEvidence, doAgree, type ScaleEvidence, type ScaleVerdict } from './combineEvidence.ts';
import type { DimensionEvidence } from './dimensionEvidence.ts';
import type { MeasureEvidence } from './measureEvidence.ts';

/** An area of a sheet with one scale. */
export interface ViewVerdict {
  readonly box: Box;
  readonly name?: string;
  readonly verdict: ScaleVerdict;
  readonly dimensions?: DimensionEvidence;
}

/** A note's evidence and where it stands. */
export interface NoteEvidence {
  readonly evidence: ScaleEvidence;
  /** Whether it speaks for the sheet, not for the detail whose title it ends. */
  readonly isOfSheet: boolean;
  readonly x: number;
  readonly y: number;
}

/** Views whose ratios differ by less than this have one scale. */
const SAME_SCALE = 0.005;

/** A view reaches this share of its size beyond its dimensions. */
const MARGIN = 0.03;

/**
 * The views of a sheet, each with its own verdict, the largest first: one for each group of dimensions with its own
 * scale, and one for each viewport elsewhere. A single one where all have one scale.
 */
export const readViews = (
  dimensions: readonly DimensionEvidence[],
  measures: readonly MeasureEvidence[],
  notes: readonly NoteEvidence[],
): readonly ViewVerdict[] => {
  const views: ViewVerdict[] = [];
  for (const found of dimensions) {
    const centre = centreOf(found.extent);
    const measure = measures.findLast(({ box }) => isInside(centre, box));
    const evidence = evidenceOfDimensions(found);
    const near = notesOfView(notes, measure?.box ?? grown(found.extent), evidence, dimensions.length > 1);
    const verdict = combineEvidence([evidence, ...(measure ? [measure.evidence] : []), ...near]);
    views.push({
      box: measure?.box ?? grown(found.extent),
      ...(measure?.name ? { name: measure.name } : {}),
      verdict,
      dimensions: found,
    });
  }
  for (const measure of measures) {
    const isKnown = views.some(
      ({ box, verdict }) =>
        isSameScale(verdict.ratio, measure.evidence.ratio) || isInside(centreOf(measure.box), box),
    );
    if (isKnown) continue;
    const near = notesOfView(notes, measure.box, measure.evidence, measures.length > 1);
    views.push({
      box: measure.box,
      ...(measure.name ? { name: measure.name } : {}),
      verdict: combineEvidence([measure.evidence, ...near]),
    });
  }
  return views.sort((a, b) => areaOf(b.box) - areaOf(a.box));
};

/** Titles of drawings that stand beside a plan at another scale. */
const TITLE_ASIDE =
  /(?<!\p{L})(?:key|site|location|block|detail|details|section|elevation|view|schnitt|ansicht|lageplan)(?!\p{L})/iu;

/** On a sheet of several views a note speaks for the view in which it stands, or with which it agrees. */
const notesOfView = (
  notes: readonly NoteEvidence[],
  box: Box,
  evidence: ScaleEvidence,
  isOneOfSeveral: boolean,
): readonly ScaleEvidence[] => {
  if (!isOneOfSeveral) {
    // A key plan or a detail beside the plan may have its own scale: its title contradicts nothing.
    const isAside = ({ isOfSheet, evidence: { text = '' } }: NoteEvidence): boolean =>
      !isOfSheet && TITLE_ASIDE.test(text);
    return notes
      .filter((note) => !isAside(note) || doAgree(note.evidence, evidence))
      .map((note) => note.evidence);
  }
  const inside = notes.filter((note) => isInside(note, box)).map((note) => note.evidence);
  if (inside.length > 0) return inside;
  return notes.map((note) => note.evidence).filter((note) => doAgree(note, evidence));
};

const evidenceOfDimensions = (dimensions: DimensionEvidence): ScaleEvidence => ({
  kind: 'dimensions',
  ratio: dimensions.ratio,
  relativeUncertainty: dimensions.relativeUncertainty,
  unit: dimensions.unit,
  unitAssumed: dimensions.unitAssumed,
  supporting: dimensions.agreeing.length,
  of: dimensions.agreeing.length + dimensions.disagreeing.length,
});

const isSameScale = (a: number | null, b: number): boolean => a !== null && Math.abs(a / b - 1) < SAME_SCALE;

const grown = ({ minX, minY, maxX, maxY }: Box): Box => {
  const margin = MARGIN * Math.max(maxX - minX, maxY - minY);
  return { minX: minX - margin, minY: minY - margin, maxX: maxX + margin, maxY: maxY + margin };
};

const centreOf = ({ minX, minY, maxX, maxY }: Box): { x: number; y: number } => ({
  x: (minX + maxX) / 2,
  y: (minY + maxY) / 2,
});

const isInside = (
  { x, y }: { readonly x: number; readonly y: number },
  { minX, minY, maxX, maxY }: Box,
): boolean => x >= minX && x <= maxX && y >= minY && y <= maxY;

const areaOf = ({ minX, minY, maxX, maxY }: Box): number => (maxX - minX) * (maxY - minY);
