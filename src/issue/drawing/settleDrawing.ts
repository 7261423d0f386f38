import { type Drawing, lineGroupShare, type Shape } from './drawing.ts';
import { mappedPath } from './drawnPath.ts';
import { settleCallouts } from './settleCallouts.ts';
import { settleChains } from './settleChains.ts';
import { lettering, type SettledDrawing, type SettledText, settledText } from './settledDrawing.ts';
import { settleLevels } from './settleLevels.ts';
import { settleNotes } from './settleNotes.ts';
import { textWidthMm } from './textWidth.ts';

const { capitalMm, gapMm } = lettering;
/** The words at the ends stand beside the first row under the floor. */
const endBaseline = -1.6 - capitalMm;

/**
 * A drawing at the scale 1 : `ratio`: shapes reduced to paper, every text in its place so that none overlaps another.
 * Lengths that are too narrow for their text are led out below the chain, notes that are too wide for their place above
 * the drawing; where even that leaves no room, the text of least rank is left out.
 */
export const settleDrawing = <Part extends string>(
  drawing: Drawing<Part>,
  ratio: number,
): SettledDrawing<Part> => {
  if (!(ratio > 0 && Number.isFinite(ratio)))
    throw new RangeError(`A drawing's scale must be positive, found 1:${ratio}`);
  const reduced = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x: x / ratio, y: y / ratio });
  const shapes = drawing.shapes.map(
    (shape): Shape<Part> => ({ ...shape, path: mappedPath(shape.path, reduced) }),
  );
  const notes = settleNotes(drawing.notes, ratio);
  const callouts = settleCallouts([...drawing.callouts, ...notes.ledOut], ratio, drawing.topMm / ratio);
  const chains = settleChains(drawing, ratio);
  const left = drawing.leftMm / ratio;
  const right = drawing.rightMm / ratio;
  const beside = chains.texts.filter(({ box }) => box.top > endBaseline - 1);
  const ends = endTexts(drawing, {
    left: Math.min(left, ...beside.map(({ box }) => box.left)),
    right: Math.max(right, ...beside.map(({ box }) => box.right)),
  });
  const texts = [...notes.texts, ...callouts.texts, ...chains.texts, ...ends];
  const levels = settleLevels<Part>(drawing.levels, ratio);
  return {
    ratio,
    lineShare: lineGroupShare(ratio),
    ...(drawing.cutAt
      ? {
          cutAt: {
            ...(drawing.cutAt.left === undefined ? {} : { left: drawing.cutAt.left / ratio }),
            ...(drawing.cutAt.right === undefined ? {} : { right: drawing.cutAt.right / ratio }),
          },
        }
      : {}),
    shapes,
    rulings: [...chains.rulings, ...callouts.rulings],
    texts,
    levels,
    bounds: {
      left: Math.min(left, ...texts.map(({ box }) => box.left)) - 1,
      right: Math.max(right, ...texts.map(({ box }) => box.right)) + 1,
      bottom: chains.bottom,
      top: Math.max(callouts.top, ...levels.texts.map(({ box }) => box.top)) + 0.6,
    },
    parts: drawing.parts.map((part) => ({
      ...part,
      box: {
        left: part.box.left / ratio,
        right: part.box.right / ratio,
        bottom: part.box.bottom / ratio,
        top: part.box.top / ratio,
      },
    })),
  };
};

const endTexts = <Part extends string>(
  { leftEnd, rightEnd }: Drawing<Part>,
  place: { readonly left: number; readonly right: number },
): readonly SettledText<Part>[] => {
  const baseline = endBaseline;
  const clear = 1.5 * gapMm;
  const leftMm = textWidthMm(leftEnd, capitalMm);
  const rightMm = textWidthMm(rightEnd, capitalMm);
  return [
    settledText<Part>(
      'end',
      { text: leftEnd },
      { x: place.left - clear - leftMm / 2, baseline, widthMm: leftMm },
    ),
    settledText<Part>(
      'end',
      { text: rightEnd },
      { x: place.right + clear + rightMm / 2, baseline, widthMm: rightMm },
    ),
  ];
};

/**
 * The ratio at which a drawing with all its texts is `heightMm` of paper high: as large as that height allows, but not
 * larger than 1 : `largest`.
 */
export const ratioForHeight = <Part extends string>(
  drawing: Drawing<Part>,
  heightMm: number,
  largest = 5,
): number => {
  let ratio = 40;
  // The rows of text depend a little on the ratio; a few rounds settle it.
  for (let round = 0; round < 4; round += 1) {
    const { bounds } = settleDrawing(drawing, ratio);
    const forText = bounds.top - bounds.bottom - drawing.topMm / ratio;
    const next = Math.max(largest, drawing.topMm / Math.max(1, heightMm - forText));
    if (Math.abs(next - ratio) < 1e-9) break;
    ratio = next;
  }
  return ratio;
};
