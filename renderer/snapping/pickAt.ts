import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import type { LineworkIndex, SnapKind } from '../../src/sheet/lineworkIndex.ts';
import type { Pick } from '../tools/tool.ts';

/** How close the pointer must come to be caught, in CSS pixels. */
const reachPx = 11;

/**
 * Standard uncertainty of a pick, in points on the paper. A pick caught by the drawing is as sure as the drawn line: its
 * place may be anywhere across a thin line of 0.18 mm (a width of ISO 128), so half of that over the square root of 3
 * (JCGM 100:2008, 4.3.7). A free pick adds the hand: a pixel to either side, likewise over the square root of 3.
 */
const caughtPt = (0.09 / Math.sqrt(3)) * (72 / 25.4);
const handPx = 1 / Math.sqrt(3);

const words: Readonly<Record<SnapKind, string>> = {
  end: 'end',
  crossing: 'crossing',
  middle: 'middle',
  'on-line': 'on a line',
};

/** Directions within this of one of the sheet's axes through the anchor are taken as meant. */
const alignedWithinRad = (2 * Math.PI) / 180;

const inLineWith = (anchor: PaperPoint, point: PaperPoint): PaperPoint | null => {
  const dx = Math.abs(point.x - anchor.x);
  const dy = Math.abs(point.y - anchor.y);
  if (dx + dy === 0) return null;
  if (Math.atan2(dy, dx) < alignedWithinRad) return paperPoint(point.x, anchor.y);
  if (Math.atan2(dx, dy) < alignedWithinRad) return paperPoint(anchor.x, point.y);
  return null;
};

/**
 * The pick for a pointer at a place of the sheet: caught by the drawing where something is near, in line with the
 * anchor where nothing is, else free.
 *
 * @param pxPerUnit CSS pixels in one user-space unit at the present zoom.
 * @param candidate how often the operator asked for the next candidate instead.
 */
export const pickAt = (
  point: PaperPoint,
  over: {
    readonly index: LineworkIndex | null;
    readonly pxPerUnit: number;
    readonly userUnit: number;
    readonly anchor: PaperPoint | null;
    readonly isSuspended: boolean;
    readonly candidate: number;
  },
): Pick => {
  const freePt = Math.hypot(caughtPt, (handPx / over.pxPerUnit) * over.userUnit);
  if (over.isSuspended) return { at: point, uncertaintyPt: freePt, relation: null };
  const candidates = over.index?.snapCandidates(point, reachPx / over.pxPerUnit) ?? [];
  const caught = candidates[over.candidate % Math.max(1, candidates.length)];
  const aligned = over.anchor && inLineWith(over.anchor, point);
  // A bare line catches the pointer everywhere along it; being in line with the last point as well says where.
  if (caught && caught.kind === 'on-line' && aligned && over.index) {
    const both = over.index
      .snapCandidates(aligned, (reachPx * 0.5) / over.pxPerUnit)
      .find(({ kind, distance }) => kind === 'on-line' && distance * over.pxPerUnit < 1);
    if (both) return { at: both.point, uncertaintyPt: caughtPt, relation: 'on a line, in line' };
  }
  if (caught) return { at: caught.point, uncertaintyPt: caughtPt, relation: words[caught.kind] };
  if (aligned) return { at: aligned, uncertaintyPt: freePt, relation: 'in line' };
  return { at: point, uncertaintyPt: freePt, relation: null };
};
