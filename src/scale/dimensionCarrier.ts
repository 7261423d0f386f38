import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import { type TextRun, textCentre } from '../sheet/textRun.ts';

/**
 * A straight that a text's dimension line may lie on. Positions along it are measured from the foot of the text's
 * centre, in user-space units.
 */
export interface Carrier {
  /** Foot of the text's centre on the carrier. */
  readonly x: number;
  readonly y: number;
  /** Unit direction. */
  readonly ux: number;
  readonly uy: number;
  /** Distance of the text's centre from the carrier, in text sizes. */
  readonly away: number;
  /** Whether the text is written along it. */
  readonly isAligned: boolean;
  /** How far the drawn line reaches along it, its break at the text bridged. */
  readonly from: number;
  readonly to: number;
}

/** Lines this far off a carrier still lie on it, in text sizes: drafting is exact, export rounds. */
const ON_CARRIER = 0.06;

/** A dimension line's text stands within this many sizes of it. */
const FARTHEST_TEXT = 2.2;

/** Sine of the angle within which two lines are parallel. */
const PARALLEL = 0.03;

const MOST_CARRIERS = 10;

/** Ends of collinear pieces closer than this are joined, in text sizes. */
const JOIN_GAP = 0.1;

/** Tolerance for lying on a carrier, in user-space units. */
export const onCarrier = ({ size }: TextRun): number => ON_CARRIER * size;

/** Finds the straights near a text that its dimension line may lie on, likeliest first. */
export const findCarriers = (text: TextRun, index: LineworkIndex): readonly Carrier[] => {
  const { lines, lineCount } = index.linework;
  const { x, y } = textCentre(text);
  const { size } = text;
  const halfWidth = text.width / 2;
  const reach = Math.max(FARTHEST_TEXT * size, halfWidth + 1.5 * size);
  const textX = Math.cos(text.angleRad);
  const textY = Math.sin(text.angleRad);
  const found: Carrier[] = [];
  for (const item of index.itemsIn({ minX: x - reach, minY: y - reach, maxX: x + reach, maxY: y + reach })) {
    if (item >= lineCount) continue;
    const x0 = lines[item * 4]! - x;
    const y0 = lines[item * 4 + 1]! - y;
    const x1 = lines[item * 4 + 2]! - x;
    const y1 = lines[item * 4 + 3]! - y;
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length < 0.3 * size) continue;
    let ux = (x1 - x0) / length;
    let uy = (y1 - y0) / length;
    if (ux < -1e-9 || (Math.abs(ux) <= 1e-9 && uy < 0)) [ux, uy] = [-ux, -uy];
    const away = Math.abs(ux * y0 - uy * x0);
    const sine = Math.abs(textX * uy - textY * ux);
    const isAligned = sine < PARALLEL;
    const halfAcross = isAligned ? 0 : halfWidth * sine + 0.35 * size * Math.sqrt(1 - sine * sine);
    if (away > (isAligned ? FARTHEST_TEXT * size : halfAcross + size)) continue;
    const from = Math.min(ux * x0 + uy * y0, ux * x1 + uy * y1);
    const to = Math.max(ux * x0 + uy * y0, ux * x1 + uy * y1);
    const side = ux * y0 - uy * x0;
    const carrier: Carrier = {
      x: x - side * uy,
      y: y + side * ux,
      ux,
      uy,
      away: away / size,
      isAligned,
      from,
      to,
    };
    mergeCarrier(found, carrier, text);
  }
  const cost = (carrier: Carrier): number => carrier.away + (carrier.isAligned ? 0 : 1.5);
  return found
    .sort((a, b) => cost(a) - cost(b))
    .slice(0, MOST_CARRIERS)
    .map((carrier) => extendCarrier(carrier, text, index));
};

const mergeCarrier = (found: Carrier[], carrier: Carrier, text: TextRun): void => {
  const tolerance = onCarrier(text);
  for (const [i, other] of found.entries()) {
    const isSame =
      Math.abs(other.ux * carrier.uy - other.uy * carrier.ux) < 0.01 &&
      Math.hypot(other.x - carrier.x, other.y - carrier.y) < tolerance;
    if (!isSame) continue;
    // Pieces on both sides of the text are one dimension line broken by it.
    const longer = other.to - other.from >= carrier.to - carrier.from ? other : carrier;
    found[i] = { ...longer, from: Math.min(other.from, carrier.from), to: Math.max(other.to, carrier.to) };
    return;
  }
  found.push(carrier);
};

/** Follows collinear pieces that touch, outwards from the text. */
const extendCarrier = (carrier: Carrier, text: TextRun, index: LineworkIndex): Carrier => {
  const { lines, lineCount } = index.linework;
  const tolerance = onCarrier(text);
  const gap = JOIN_GAP * text.size;
  let { from, to } = carrier;
  for (let round = 0; round < 40; round++) {
    let hasGrown = false;
    for (const end of [from, to]) {
      const px = carrier.x + end * carrier.ux;
      const py = carrier.y + end * carrier.uy;
      const reach = gap + tolerance;
      for (const item of index.itemsIn({
        minX: px - reach,
        minY: py - reach,
        maxX: px + reach,
        maxY: py + reach,
      })) {
        if (item >= lineCount) continue;
        const span = spanOnCarrier(carrier, lines, item, tolerance);
        if (!span || span[0] > end + gap || span[1] < end - gap) continue;
        if (span[0] < from - 1e-6) {
          from = span[0];
          hasGrown = true;
        }
        if (span[1] > to + 1e-6) {
          to = span[1];
          hasGrown = true;
        }
      }
    }
    if (!hasGrown) break;
  }
  return { ...carrier, from, to };
};

/** The extent along a carrier of a line that lies on it, or null. */
export const spanOnCarrier = (
  { x, y, ux, uy }: Carrier,
  lines: Float64Array,
  line: number,
  tolerance: number,
): readonly [number, number] | null => {
  const x0 = lines[line * 4]! - x;
  const y0 = lines[line * 4 + 1]! - y;
  const x1 = lines[line * 4 + 2]! - x;
  const y1 = lines[line * 4 + 3]! - y;
  if (Math.abs(ux * y0 - uy * x0) > tolerance || Math.abs(ux * y1 - uy * x1) > tolerance) return null;
  const s0 = ux * x0 + uy * y0;
  const s1 = ux * x1 + uy * y1;
  // A short piece across the carrier lies within the tolerance too, but says nothing of its direction.
  if (Math.abs(s1 - s0) < 2 * tolerance) return null;
  return s0 < s1 ? [s0, s1] : [s1, s0];
};
