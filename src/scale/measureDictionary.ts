import type { Point } from '../geometry/point.ts';
import type { EmbeddedViewport, NumberFormat, RectilinearMeasure } from '../sheet/embeddedViewport.ts';
import { MM_PER_POINT, paperMmPerUnit } from './paperLength.ts';

const MM_PER_LABEL: Readonly<Record<string, number>> = {
  mm: 1,
  millimeter: 1,
  millimeters: 1,
  millimetre: 1,
  millimetres: 1,
  cm: 10,
  centimeter: 10,
  centimeters: 10,
  centimetre: 10,
  centimetres: 10,
  m: 1000,
  meter: 1000,
  meters: 1000,
  metre: 1000,
  metres: 1000,
  km: 1e6,
  in: 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  ft: 304.8,
  foot: 304.8,
  feet: 304.8,
  "'": 304.8,
  yd: 914.4,
  yard: 914.4,
  yards: 914.4,
  mi: 1609344,
  mile: 1609344,
  miles: 1609344,
};

/** Millimetres in a unit label of a measure dictionary; undefined where it is blank or unknown. */
export const mmPerLabel = (label: string): number | undefined =>
  MM_PER_LABEL[label.trim().toLowerCase().replace(/\.$/, '')];

/**
 * Whether a viewport describes the paper and no drawing: its factor is the mm of paper in a user-space unit, or in a
 * point.
 */
export const isPaperViewport = ({ measure }: EmbeddedViewport, userUnit: number): boolean => {
  const format = measure?.x[0];
  if (!format) return false;
  const mm = format.factor * (mmPerLabel(format.unit) ?? 1);
  return [paperMmPerUnit(userUnit), MM_PER_POINT].some((paper) => Math.abs(mm / paper - 1) < 1e-3);
};

/**
 * The viewport that holds for a point: the last in the list whose box contains it (ISO 32000-1, 12.9.1).
 */
export const viewportAt = (
  viewports: readonly EmbeddedViewport[],
  { x, y }: Point,
): EmbeddedViewport | undefined =>
  viewports.findLast(({ box }) => x >= box.minX && x <= box.maxX && y >= box.minY && y <= box.maxY);

/**
 * A distance by a measure dictionary, in its largest unit: x and y are converted on their own, y by CYX into the
 * unit of x, and put together (ISO 32000-1, 12.9.2).
 */
export const measuredDistance = ({ x, y, yToX }: RectilinearMeasure, a: Point, b: Point): number => {
  const alongX = (b.x - a.x) * (x[0]?.factor ?? Number.NaN);
  const alongY =
    (b.y - a.y) * (y ? (y[0]?.factor ?? Number.NaN) * (yToX ?? 1) : (x[0]?.factor ?? Number.NaN));
  return Math.hypot(alongX, alongY);
};

/** Millimetres per user-space unit along x and y; undefined where a unit is blank or unknown. */
export const measureMmPerUnit = ({
  x,
  y,
  yToX,
}: RectilinearMeasure): { readonly x: number; readonly y: number } | undefined => {
  const format = x[0];
  const mm = format && mmPerLabel(format.unit);
  if (!format || mm === undefined || !(format.factor > 0)) return undefined;
  const yFactor = y?.[0] ? y[0].factor * (yToX ?? 1) : format.factor;
  return yFactor > 0 ? { x: format.factor * mm, y: yFactor * mm } : undefined;
};

/**
 * A value written out by a chain of number formats: each but the last takes the whole part and hands the rest on,
 * times the next factor (ISO 32000-1, 12.9.2; Algorithm 8.2 of the PDF Reference 1.7).
 *
 * @param value in the first format's unit.
 * @example formatMeasured(1.4505, milesFeetInches) // '1 mi 2,378 ft 7 5/8 in'
 */
export const formatMeasured = (value: number, formats: readonly NumberFormat[]): string => {
  let rest = value;
  let text = '';
  for (const [i, format] of formats.entries()) {
    if (i > 0) rest *= format.factor;
    if (i === formats.length - 1) return (text + labelled(lastNumber(rest, format), format)).trim();
    const whole = Math.floor(rest);
    if (whole > 0) text += labelled(grouped(whole, format.thousands), format);
    rest -= whole;
  }
  return text.trim();
};

const labelled = (
  number: string,
  { unit, labelPrefix, labelSuffix, labelPosition }: NumberFormat,
): string => {
  const label = `${labelPrefix}${unit}${labelSuffix}`;
  return labelPosition === 'P' ? label + number : number + label;
};

const lastNumber = (value: number, format: NumberFormat): string => {
  const { fraction, precision, keepsForm, thousands, decimal } = format;
  if (fraction === 'R') return grouped(Math.round(value), thousands);
  if (fraction === 'T') return grouped(Math.trunc(value), thousands);
  if (fraction === 'F') {
    const parts = Math.round(value * precision);
    const whole = Math.floor(parts / precision);
    const upper = parts - whole * precision;
    if (upper === 0) return grouped(whole, thousands);
    const divisor = keepsForm ? 1 : commonDivisor(upper, precision);
    const ratio = `${upper / divisor}/${precision / divisor}`;
    return whole > 0 ? `${grouped(whole, thousands)} ${ratio}` : ratio;
  }
  const places = Math.max(0, Math.round(Math.log10(precision)));
  const [whole = '0', decimals = ''] = value.toFixed(places).split('.');
  const kept = keepsForm ? decimals : decimals.replace(/0+$/, '');
  return grouped(Number(whole), thousands) + (kept ? decimal + kept : '');
};

const grouped = (whole: number, thousands: string): string =>
  String(whole).replace(/\B(?=(?:\d{3})+$)/g, thousands);

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));
