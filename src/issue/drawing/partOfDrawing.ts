import type { ChainLink, Drawing, Shape } from './drawing.ts';
import { mappedPath, pointsOfPath, polylinePath } from './drawnPath.ts';

/** The tag of the line at which a drawing is parted: it is drawn whole, over the cut. */
export const matchLineTag = 'match-line';

/** How far a match line reaches above what is drawn, mm of the room. */
const beyondMm = 60;
/** Lengths below a hundredth of a millimetre are the last bits of float arithmetic. */
const nothingMm = 0.01;

/** Which part of a drawing: from where to where, its number and how many there are. */
export interface PartWanted {
  readonly fromMm: number;
  readonly toMm: number;
  /** From 1. */
  readonly number: number;
  readonly of: number;
  /** A length as the drawing writes it, without its unit. */
  readonly lengthText: (lengthMm: number) => string;
}

/**
 * A part of a drawing that is too long for one strip, ended by match lines that name the parts which they join. What lies
 * across the cut is cut off there; a length of the chains that goes on in another part says what of it is shown here, and
 * of how much. Lengths start at the cut.
 */
export const partOfDrawing = <Part extends string>(
  drawing: Drawing<Part>,
  { fromMm, toMm, number, of, lengthText }: PartWanted,
): Drawing<Part> => {
  const isCutLeft = number > 1;
  const isCutRight = number < of;
  const low = isCutLeft ? fromMm : Number.NEGATIVE_INFINITY;
  const high = isCutRight ? toMm : Number.POSITIVE_INFINITY;
  const shift = isCutLeft ? -fromMm : 0;
  const moved = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x: x + shift, y });
  const isWithin = (x: number) => x >= low - nothingMm && x <= high + nothingMm;

  const shapes = drawing.shapes.flatMap((shape): Shape<Part>[] => {
    const xs = pointsOfPath(shape.path).map(({ x }) => x);
    const reaches = Math.max(...xs) > low - nothingMm && Math.min(...xs) < high + nothingMm;
    return reaches ? [{ ...shape, path: mappedPath(shape.path, moved) }] : [];
  });
  const matchLine = (xMm: number): Shape<Part> => ({
    path: polylinePath([
      [xMm + shift, -beyondMm / 2],
      [xMm + shift, drawing.topMm + beyondMm],
    ]),
    stroke: { weight: 'thick', type: 'chain' },
    tag: matchLineTag,
  });
  const linkIn = (link: ChainLink<Part>): ChainLink<Part>[] => {
    const from = Math.max(link.fromMm, low);
    const to = Math.min(link.toMm, high);
    if (to - from <= nothingMm) return [];
    const isWhole = from - link.fromMm <= nothingMm && link.toMm - to <= nothingMm;
    const { quietText: own, ...rest } = link;
    const whole = [link.text, own].filter(Boolean).join(' ');
    const words = isWhole
      ? { text: link.text, ...(own === undefined ? {} : { quietText: own }) }
      : { text: lengthText(to - from), quietText: `of ${whole}` };
    return [{ ...rest, ...words, fromMm: from + shift, toMm: to + shift }];
  };
  return {
    ...drawing,
    title: `${drawing.title}, part ${number} of ${of}`,
    leftEnd: isCutLeft ? `match line ${number - 1}/${number}` : drawing.leftEnd,
    rightEnd: isCutRight ? `match line ${number}/${number + 1}` : drawing.rightEnd,
    leftMm: isCutLeft ? 0 : drawing.leftMm,
    rightMm: (isCutRight ? toMm : drawing.rightMm) + shift,
    topMm: drawing.topMm + beyondMm,
    folds: (drawing.folds ?? []).filter(isWithin).map((fold) => fold + shift),
    cutAt: {
      ...(isCutLeft ? { left: 0 } : {}),
      ...(isCutRight ? { right: toMm + shift } : {}),
    },
    shapes: [...shapes, ...(isCutLeft ? [matchLine(fromMm)] : []), ...(isCutRight ? [matchLine(toMm)] : [])],
    notes: drawing.notes.filter(({ at }) => isWithin(at.x)).map((note) => ({ ...note, at: moved(note.at) })),
    callouts: drawing.callouts
      .filter(({ at }) => isWithin(at.x))
      .map((callout) => ({ ...callout, at: moved(callout.at) })),
    levels: isCutLeft ? drawing.levels.filter(({ isLeftEnds }) => !isLeftEnds) : drawing.levels,
    chains: drawing.chains.map(({ links }) => ({ links: links.flatMap(linkIn) })),
    parts: drawing.parts
      .filter(({ box }) => box.right > low && box.left < high)
      .map((part) => ({
        ...part,
        box: { ...part.box, left: part.box.left + shift, right: part.box.right + shift },
      })),
  };
};
