import { PDFDocument } from '@cantoo/pdf-lib';
import { seededRandom } from '../../fixtures/drawPlan/seededRandom.ts';
import { roomPlan } from '../../fixtures/revisedPlan/roomPlan.ts';

/** Lines of the room in mm: x0, y0, x1, y1 of each. */
export type RoomLines = readonly number[];

/** The building that two revisions have in common: an invented plan of the generator. */
export const commonLines = (
  seed: number,
): { readonly lines: RoomLines; readonly widthMm: number; readonly heightMm: number } => {
  const plan = roomPlan(seededRandom(seed), 'ordinary');
  return {
    lines: plan.items.flatMap(({ lines }) => [...lines]),
    widthMm: plan.widthMm,
    heightMm: plan.heightMm,
  };
};

/** Draws lines of the room on a page at a ratio, with the room's origin at a place of the paper. */
export const pdfOf = async (
  lines: RoomLines,
  at: {
    readonly ratio: number;
    readonly originPt: readonly [number, number];
    readonly pagePt: readonly [number, number];
  },
): Promise<Uint8Array> => {
  const document = await PDFDocument.create();
  const page = document.addPage([...at.pagePt]);
  const unit = 72 / 25.4 / at.ratio;
  const operators: string[] = ['0.5 w 0 G'];
  for (let line = 0; line < lines.length; line += 4) {
    const place = (index: number) => (lines[line + index]! * unit + at.originPt[index % 2]!).toFixed(4);
    operators.push(`${place(0)} ${place(1)} m ${place(2)} ${place(3)} l S`);
  }
  const stream = document.context.flateStream(operators.join('\n'));
  page.node.addContentStream(document.context.register(stream));
  return document.save();
};
