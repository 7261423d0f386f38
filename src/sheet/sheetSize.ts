/** A standard sheet: its trimmed size in mm, short side first. */
export interface StandardSheet {
  readonly name: string;
  readonly shortMm: number;
  readonly longMm: number;
}

const INCH = 25.4;

const iso = (name: string, shortMm: number, longMm: number): StandardSheet => ({ name, shortMm, longMm });
const inches = (name: string, short: number, long: number): StandardSheet => ({
  name,
  shortMm: short * INCH,
  longMm: long * INCH,
});

/**
 * ISO 216:2007 A and B series; ASME Y14.1 (ANSI) A to E; the US architectural series. A name that two series share is
 * the one listed first.
 */
export const STANDARD_SHEETS: readonly StandardSheet[] = [
  iso('A0', 841, 1189),
  iso('A1', 594, 841),
  iso('A2', 420, 594),
  iso('A3', 297, 420),
  iso('A4', 210, 297),
  iso('A5', 148, 210),
  iso('B0', 1000, 1414),
  iso('B1', 707, 1000),
  iso('B2', 500, 707),
  iso('B3', 353, 500),
  iso('B4', 250, 353),
  inches('ANSI A', 8.5, 11),
  inches('ANSI B', 11, 17),
  inches('ANSI C', 17, 22),
  inches('ANSI D', 22, 34),
  inches('ANSI E', 34, 44),
  inches('ARCH A', 9, 12),
  inches('ARCH B', 12, 18),
  inches('ARCH C', 18, 24),
  inches('ARCH D', 24, 36),
  inches('ARCH E', 36, 48),
  inches('ARCH E1', 30, 42),
  inches('ARCH E2', 26, 38),
  inches('ARCH E3', 27, 39),
];

/** Sides may be off by this much: ISO 216 allows 3 mm above 600 mm, and plotters round to whole points. */
const TOLERANCE_MM = 3;

/**
 * The standard name of a sheet in either orientation, or `custom`.
 *
 * Elongated A sheets (ISO 5457) are named by their factor: `A1 x 5` has the long side of A1 and five of its short sides.
 *
 * @example sheetName(841, 594) // 'A1'
 */
export const sheetName = (widthMm: number, heightMm: number): string => {
  const shortMm = Math.min(widthMm, heightMm);
  const longMm = Math.max(widthMm, heightMm);
  const distance = (sheet: StandardSheet): number =>
    Math.max(Math.abs(sheet.shortMm - shortMm), Math.abs(sheet.longMm - longMm));
  let best: StandardSheet | undefined;
  for (const sheet of STANDARD_SHEETS) {
    if (distance(sheet) <= TOLERANCE_MM && (!best || distance(sheet) < distance(best))) best = sheet;
  }
  return best?.name ?? elongatedName(shortMm, longMm) ?? 'custom';
};

/** ISO 5457:1999, elongated sizes: a multiple, 3 or more, of the short side beside an A sheet's long side. */
const elongatedName = (shortMm: number, longMm: number): string | undefined => {
  for (const sheet of STANDARD_SHEETS.slice(0, 5)) {
    const factor = Math.round(longMm / sheet.shortMm);
    const isElongated =
      factor >= 3 &&
      factor <= 9 &&
      Math.abs(shortMm - sheet.longMm) <= TOLERANCE_MM &&
      Math.abs(longMm - factor * sheet.shortMm) <= TOLERANCE_MM * factor;
    if (isElongated) return `${sheet.name} x ${factor}`;
  }
  return undefined;
};

/** The standard sheet of a name as written on drawings: `A1`, `a1`, `ANSI D`, `ARCH D`; undefined for any other. */
export const standardSheet = (name: string): StandardSheet | undefined => {
  const wanted = name
    .trim()
    .toUpperCase()
    .replace(/[\s-]+/g, ' ');
  return STANDARD_SHEETS.find((sheet) => sheet.name === wanted);
};
