/** Separates groups of three digits (SI Brochure, 9th ed., 5.4.4: a thin space, never a comma or a dot). */
export const THIN_SPACE = '\u2009';

/** Stands between a number and its unit, so that a line never breaks there. */
export const NO_BREAK_SPACE = '\u00a0';

/** A real minus sign, as wide as the digits beside it. */
export const MINUS = '\u2212';

/**
 * Puts thin spaces between groups of three in a string of whole digits.
 *
 * @example groupDigits('6248') // '6\u2009248'
 */
export const groupDigits = (digits: string): string => digits.replace(/\B(?=(?:\d{3})+$)/g, THIN_SPACE);
