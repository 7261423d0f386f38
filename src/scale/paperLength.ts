/** Millimetres in one point: the user-space unit is 1/72 inch (ISO 32000-1, 8.3.2.3) and an inch is 25.4 mm. */
export const MM_PER_POINT = 25.4 / 72;

/**
 * Millimetres of paper in one user-space unit of a page.
 *
 * @param userUnit the page's UserUnit, in multiples of 1/72 inch; above 0, 1 by default (ISO 32000-1, Table 30).
 * @example paperMmPerUnit(1) * 72 // 25.4
 */
export const paperMmPerUnit = (userUnit = 1): number => MM_PER_POINT * userUnit;
