/**
 * Separates groups of three digits (SI Brochure, 9th ed., 5.4.4: a thin space, never a comma or a dot): the thin space
 * that never breaks a line.
 */
export const DIGIT_SPACE = '\u202f';

/** Stands between a number and its unit, so that a line never breaks there. */
export const NO_BREAK_SPACE = '\u00a0';

/** A real minus sign, as wide as the digits beside it. */
export const MINUS = '\u2212';

/**
 * Puts thin spaces between groups of three in a string of whole digits.
 *
 * @example groupDigits('6248') // '6\u202f248'
 */
export const groupDigits = (digits: string): string => digits.replace(/\B(?=(?:\d{3})+$)/g, DIGIT_SPACE);
