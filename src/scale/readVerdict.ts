import type { Box } from '../geometry/box.ts';
import { joinText } from '../sheet/joinText.ts';
import type { Linework } from '../sheet/linework.ts';
import { createLineworkIndex } from '../sheet/lineworkIndex.ts';
import type { SheetReading } from '../sheet/sheetReading.ts';
import { sheetName } from '../sheet/sheetSize.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { combineEvidence, type ScaleEvidence } from './combineEvidence.ts';
import { findBrokenChains } from './dimensionChains.ts';
import { type DimensionEvidence, readDimensionEvidence } from './dimensionEvidence.ts';
import type { DrawingUnit } from './dimensionText.ts';
import { statedUnit } from './drawingUnit.ts';
import { labelledRatios, readMeasureEvidence } from './measureEvidence.ts';
import { paperMmPerUnit } from './paperLength.ts';
import { printedFactor } from './printedFactor.ts';
import type { ReadAnswer } from './readContract.ts';
import { declaredSheet, findScaleNotes, type PlacedNote, type ScaleNote } from './scaleNote.ts';
import { type NoteEvidence, readViews, type ViewVerdict } from './viewVerdicts.ts';

/** A note is a claim about a print: paper moves and plotters fit to page, so it is never surer than this. */
const NOTE_UNCERTAINTY = 0.003;

/** x and y ratios that differ by more than this are a stretched drawing (DESIGN section 5). */
const STRETCHED = 0.005;

type Remark = NonNullable<ReadAnswer['remarks']>[number];

/**
 * Everything that a page says of itself, weighed: the answer of `footrail read`. Pure: the same page always gives the
 * same answer.
 */
export const readVerdict = (reading: SheetReading, linework: Linework): ReadAnswer => {
  const { userUnit, mediaBox, viewBox, rotation } = reading;
  const mm = paperMmPerUnit(userUnit);
  const widthMm = (mediaBox.maxX - mediaBox.minX) * mm;
  const heightMm = (mediaBox.maxY - mediaBox.minY) * mm;
  const name = sheetName(widthMm, heightMm);
  const text = joinText(reading.text);
  const notes = findScaleNotes(text);
  const declared = declaredSheet(text, notes, name);
  const factorFrom = (sheet: string | undefined): number | undefined =>
    sheet ? printedFactor({ widthMm, heightMm, name }, sheet) : undefined;
  const factor = factorFrom(declared);
  const noteEvidence = evidenceOfNotes(notes, ({ declaredSheet: own }) => factorFrom(own) ?? factor);
  const stated = statedUnit(text);
  const dimensions = readDimensionEvidence(text, createLineworkIndex(linework), userUnit, {
    ...(stated ? { stated } : {}),
    claimedRatios: [
      ...noteEvidence.flatMap(({ evidence, isOfSheet }) => (isOfSheet ? [evidence.ratio] : [])),
      ...labelledRatios(reading.viewports, userUnit),
    ],
  });
  const known = [
    ...dimensions.map(({ ratio }) => ratio),
    ...noteEvidence.map(({ evidence }) => evidence.ratio),
  ];
  const measures = readMeasureEvidence(reading.viewports, known, userUnit);
  const views = readViews(dimensions, measures.found, noteEvidence);
  const main = views[0]?.dimensions;
  const verdict = views[0]?.verdict ?? combineEvidence(sheetNotes(noteEvidence));
  const isPicture = reading.pictures.length > 0 && linework.lineCount + linework.curveCount === 0;
  const remarks: Remark[] = [
    ...reading.warnings.map((message) => ({ code: 'partly-read', message })),
    ...(isPicture ? [PICTURE_REMARK] : []),
    ...(measures.unresolved > 0 ? [BLANK_UNIT_REMARK] : []),
    ...(main?.unitAssumed && main.unit !== 'mm' ? [assumedUnitRemark(main.unit)] : []),
    ...stretchRemarks(main),
    ...printRemarks(factor, declared, name),
  ];
  return {
    pages: reading.pages,
    page: reading.page,
    sheet: {
      widthMm,
      heightMm,
      name,
      rotation,
      userUnit,
      mediaBox: corners(mediaBox),
      viewBox: corners(viewBox),
    },
    linework: { segments: linework.lineCount, curves: linework.curveCount },
    text: text.length,
    layers: reading.layers.map((layer) => ({ ...layer })),
    scale: {
      ratio: verdict.ratio,
      relativeUncertainty: verdict.relativeUncertainty,
      status: verdict.status,
      evidence: [...verdict.evidence],
      ...(factor === undefined ? {} : { printedFactor: factor }),
      ...(main?.ratioX && main.ratioY ? { ratioX: main.ratioX, ratioY: main.ratioY } : {}),
      ...(views.length > 1 ? { views: views.map(viewAnswer) } : {}),
    },
    ...(isPicture ? { isPicture } : {}),
    ...(dimensions.length > 0 ? { dimensions: placedDimensions(dimensions) } : {}),
    ...(remarks.length > 0 ? { remarks } : {}),
  };
};

const PICTURE_REMARK: Remark = {
  code: 'picture-sheet',
  message: 'This sheet is a picture without linework: pick a known dimension to set its scale.',
};

const BLANK_UNIT_REMARK: Remark = {
  code: 'measure-unit-blank',
  message:
    'The embedded measure does not say its unit, and nothing else on the sheet does: pick a known dimension.',
};

const assumedUnitRemark = (unit: DrawingUnit): Remark => ({
  code: 'unit-assumed',
  message: `The dimensions do not say their unit: they are read as ${unit}. Where they are in another, pick a known dimension.`,
});

const corners = ({ minX, minY, maxX, maxY }: Box): [number, number, number, number] => [
  minX,
  minY,
  maxX,
  maxY,
];

const viewAnswer = ({
  box,
  name,
  verdict,
}: ViewVerdict): NonNullable<ReadAnswer['scale']['views']>[number] => ({
  bbox: corners(box),
  ...(name ? { name } : {}),
  scale: { ...verdict, evidence: [...verdict.evidence] },
});

/** Notes that say the same count once. A print at another size changes the scale that a note stands for. */
const evidenceOfNotes = (
  notes: readonly PlacedNote[],
  factorOf: (note: ScaleNote) => number | undefined,
): NoteEvidence[] => {
  const found: NoteEvidence[] = [];
  for (const { note, run } of notes) {
    if (note.ratio === undefined) continue;
    const evidence: ScaleEvidence = {
      kind: 'note',
      ratio: note.ratio / (factorOf(note) ?? 1),
      relativeUncertainty: Math.max(NOTE_UNCERTAINTY, note.rounding),
      text: note.text,
    };
    const isKnown = found.some((other) => Math.abs(other.evidence.ratio / evidence.ratio - 1) < 1e-4);
    if (!isKnown) found.push({ evidence, x: run.origin.x, y: run.origin.y, isOfSheet: note.isOfSheet });
  }
  return found;
};

/** Without other evidence a note of the whole sheet outweighs those under the titles of its details. */
const sheetNotes = (notes: readonly NoteEvidence[]): readonly ScaleEvidence[] => {
  const ofSheet = notes.filter(({ isOfSheet }) => isOfSheet);
  return (ofSheet.length > 0 ? ofSheet : notes).map(({ evidence }) => evidence);
};

const placedDimensions = (views: readonly DimensionEvidence[]): NonNullable<ReadAnswer['dimensions']> => ({
  agreeing: views.flatMap(({ agreeing }) =>
    agreeing.map(({ text, supporter: { span }, lengthMm, drawnMm }) => ({
      text: text.text.trim(),
      at: at(text),
      statedMm: lengthMm,
      drawnMm,
      span: [
        [span.a.x, span.a.y],
        [span.b.x, span.b.y],
      ] as [[number, number], [number, number]],
    })),
  ),
  disagreeing: views.flatMap(({ disagreeing }) =>
    disagreeing.map(({ text, statedMm, drawnMm }) => ({
      text: text.text.trim(),
      at: at(text),
      statedMm,
      drawnMm,
    })),
  ),
  ...chainsOf(views),
});

/** Chains whose parts do not add up to their total. */
const chainsOf = (
  views: readonly DimensionEvidence[],
): Pick<NonNullable<ReadAnswer['dimensions']>, 'chains'> => {
  const chains = views.flatMap(({ agreeing, disagreeing }) =>
    findBrokenChains([
      ...agreeing.map(({ supporter }) => supporter),
      ...disagreeing.flatMap(({ supporter }) => (supporter ? [supporter] : [])),
    ]),
  );
  if (chains.length === 0) return {};
  return {
    chains: chains.map(({ total, totalMm, sumMm }) => ({
      text: total.text.trim(),
      at: at(total),
      totalMm,
      sumMm,
    })),
  };
};

const at = ({ origin }: TextRun): [number, number] => [origin.x, origin.y];

const stretchRemarks = (dimensions: DimensionEvidence | undefined): Remark[] => {
  if (!dimensions?.ratioX || !dimensions.ratioY) return [];
  const stretch = dimensions.ratioX / dimensions.ratioY - 1;
  if (Math.abs(stretch) <= STRETCHED) return [];
  const percent = (Math.abs(stretch) * 100).toFixed(1);
  return [
    {
      code: 'x-and-y-ratios-differ',
      message: `The drawing is stretched: its scale along x and along y differ by ${percent} %.`,
    },
  ];
};

const printRemarks = (factor: number | undefined, declared: string | undefined, name: string): Remark[] => {
  if (factor === undefined || Math.abs(factor - 1) < 0.01) return [];
  const message = `Drawn for ${declared}, this sheet is ${name}: everything is printed at ${factor.toFixed(3)} of its size.`;
  return [{ code: 'printed-at-another-size', message }];
};
