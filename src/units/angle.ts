import { readDecimal } from './decimal.ts';
import { MINUS } from './digitGroups.ts';

/** Why a typed angle was refused. */
export type AngleErrorCode = 'empty-angle' | 'not-an-angle' | 'angle-out-of-range';

/** A typed angle in degrees and radians, or why it was refused. */
export type ParsedAngle =
  | { readonly ok: true; readonly angleDeg: number; readonly angleRad: number }
  | { readonly ok: false; readonly code: AngleErrorCode; readonly message: string };

/** Radians of an angle in degrees. */
export const radiansOf = (angleDeg: number): number => (angleDeg * Math.PI) / 180;

/** Degrees of an angle in radians. */
export const degreesOf = (angleRad: number): number => (angleRad * 180) / Math.PI;

/**
 * The same direction in more than -180 up to and including 180 degrees.
 *
 * @example normaliseDeg(270) // -90
 */
export function normaliseDeg(angleDeg: number): number {
  const turned = angleDeg % 360;
  if (turned > 180) return turned - 360;
  if (turned <= -180) return turned + 360;
  return turned === 0 ? 0 : turned;
}

/** The same direction in more than -pi up to and including pi radians. */
export function normaliseRad(angleRad: number): number {
  const turned = angleRad % (2 * Math.PI);
  if (turned > Math.PI) return turned - 2 * Math.PI;
  if (turned <= -Math.PI) return turned + 2 * Math.PI;
  return turned === 0 ? 0 : turned;
}

const refuse = (code: AngleErrorCode, message: string): ParsedAngle => ({ ok: false, code, message });

/** Thousands have no place in an angle: a comma or a dot is the decimal mark. */
function angleNumber(text: string): number | undefined {
  const reading = readDecimal(text, { comma: 'decimal', dot: 'decimal' });
  return reading.ok ? Number(reading.value.numerator) / Number(reading.value.denominator) : undefined;
}

/**
 * Reads an angle as typed: `90`, `90°`, `-45.5 deg`, `45,5`, or degrees, minutes and seconds as `12°30'15"`. From -360
 * to 360 degrees.
 *
 * @example parseAngle(`12°30'`) // { ok: true, angleDeg: 12.5, angleRad: 0.218… }
 */
export function parseAngle(text: string): ParsedAngle {
  const typed = text
    .replace(/[\u2212\u2010-\u2015]/g, '-')
    .replace(/''|[\u2033\u201c\u201d]/g, '"')
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/\s+/g, '')
    .toLowerCase();
  if (typed === '') return refuse('empty-angle', 'Type an angle in degrees, such as 90 or 45.5.');
  const parts = /^([+-]?)([\d.,]{1,20})(?:°|deg|degrees)?(?:([\d.,]{1,20})'(?:([\d.,]{1,20})")?)?$/.exec(
    typed,
  );
  const numbers = parts?.slice(2).map((part) => (part === undefined ? 0 : angleNumber(part)));
  const [degrees, minutes, seconds] = numbers ?? [];
  const isWhole = parts?.[3] === undefined || (Number.isInteger(degrees) && /[°g]/.test(typed));
  if (degrees === undefined || minutes === undefined || seconds === undefined || !isWhole) {
    return refuse(
      'not-an-angle',
      `"${text.trim()}" is not an angle: type degrees, such as 90, 45.5 or 12°30'.`,
    );
  }
  const sizeDeg = degrees + minutes / 60 + seconds / 3600;
  if (sizeDeg > 360 || minutes >= 60 || seconds >= 60) {
    return refuse(
      'angle-out-of-range',
      `"${text.trim()}" is out of range: up to 360 degrees, 59 minutes, 59 seconds.`,
    );
  }
  const angleDeg = parts?.[1] === '-' && sizeDeg !== 0 ? -sizeDeg : sizeDeg;
  return { ok: true, angleDeg, angleRad: radiansOf(angleDeg) };
}

/**
 * Shows an angle in degrees, with no space before the sign (NIST SP 811, 7.2), and no needless zeros.
 *
 * @example formatAngle(-45.25, { decimals: 1 }) // '−45.3°'
 */
export function formatAngle(angleDeg: number, options: { readonly decimals?: number } = {}): string {
  const factor = 10 ** (options.decimals ?? 1);
  // Half away from zero, so that mirrored corners show the same size.
  const rounded = Math.round(Math.abs(angleDeg) * factor + 1e-9) / factor;
  return `${angleDeg < 0 && rounded !== 0 ? MINUS : ''}${rounded}°`;
}
