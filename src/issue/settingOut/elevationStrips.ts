import type { Drawing } from '../drawing/drawing.ts';
import type { PenFont } from '../drawing/paperPen.ts';
import { partOfDrawing } from '../drawing/partOfDrawing.ts';
import type { FieldSize } from './choosePlans.ts';
import { type DrawnView, viewAt } from './elevationSheets.ts';
import { type PaperSystem, preferredScales } from './papers.ts';

/** More strips than this at a scale, and the next smaller one is taken. */
const mostStrips = 12;
/** A corner is parted at where it lies at least this share of what a strip could hold from its start. */
const leastShareToCorner = 0.3;
const nothingMm = 0.01;

interface Place {
  readonly scale: { readonly ratio: number; readonly words: string };
  readonly field: FieldSize;
  readonly font: PenFont;
  readonly lengthText: (lengthMm: number) => string;
}

/** Where a drawing may be parted: between the lengths of its first chain, corners among them. */
const partings = ({
  chains,
  folds = [],
}: Drawing): readonly { readonly x: number; readonly isFold: boolean }[] => {
  const stops = (chains[0]?.links ?? []).flatMap(({ fromMm, toMm }) => [fromMm, toMm]);
  const inner = [...new Set([...stops, ...folds])].sort((one, other) => one - other).slice(1, -1);
  return inner.map((x) => ({ x, isFold: folds.some((fold) => Math.abs(fold - x) < nothingMm) }));
};

/**
 * The strips of a drawing at one scale: as long as the field holds, ended at a corner where one lies well along the
 * strip, else at a joint. Null where some length without a joint is longer than the field.
 */
const stripsAt = (drawing: Drawing, place: Place): readonly DrawnView[] | null => {
  const { scale, field, font, lengthText } = place;
  const whole = viewAt(drawing, scale, field, font);
  if (whole) return [whole];
  const cuts = partings(drawing);
  const part = (fromMm: number, toMm: number, number: number, of: number) =>
    partOfDrawing(drawing, { fromMm, toMm, number, of, lengthText });
  /** Whether a strip fits; how many follow it doesn't change its size. */
  const fits = (fromMm: number, toMm: number, number: number, isLast: boolean): boolean =>
    (toMm - fromMm) / scale.ratio <= field.widthMm &&
    viewAt(part(fromMm, toMm, number, isLast ? number : 99), scale, field, font) !== null;
  const ends: number[] = [];
  let from = drawing.leftMm;
  while (!(ends.length > 0 && fits(from, drawing.rightMm, ends.length + 1, true))) {
    const ahead = cuts.filter(({ x }) => x > from + nothingMm).toReversed();
    const furthest = ahead.find(({ x }) => fits(from, x, ends.length + 1, false));
    if (!furthest || ends.length >= mostStrips) return null;
    const corner = ahead.find(
      ({ x, isFold }) => isFold && x <= furthest.x && x - from >= leastShareToCorner * (furthest.x - from),
    );
    const end = (corner && fits(from, corner.x, ends.length + 1, false) ? corner : furthest).x;
    ends.push(end);
    from = end;
  }
  const bounds = [drawing.leftMm, ...ends, drawing.rightMm];
  const views = ends.length + 1;
  return Array.from({ length: views }, (_, index) =>
    viewAt(part(bounds[index]!, bounds[index + 1]!, index + 1, views), scale, field, font),
  ).filter((view) => view !== null);
};

/**
 * An elevation as views that fit a field: whole, or in strips with match lines, at the largest preferred scale that
 * takes no more than a dozen. Null where no scale does.
 */
export const elevationStrips = (
  drawing: Drawing,
  system: PaperSystem,
  given: Omit<Place, 'scale'>,
): readonly DrawnView[] | null => {
  for (const scale of preferredScales[system]) {
    const strips = stripsAt(drawing, { ...given, scale });
    if (strips && strips.length <= mostStrips) return strips;
  }
  return null;
};
