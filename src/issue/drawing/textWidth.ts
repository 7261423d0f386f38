/**
 * Widths of characters, in thousandths of the type size, of Archivo Variable at weight 400 (advance widths read from the
 * font file that the app bundles), rounded up a little for heavier weights. Text whose characters are not listed is
 * taken as wide, so that what finds room here finds room on the page.
 */
// biome-ignore format: a table reads better in rows
const widths: Readonly<Record<string, number>> = {
  ' ': 205, '\u00a0': 205, '\u2009': 205, '!': 295, '"': 450, "'": 250, '(': 360, ')': 360, '*': 410, '+': 640,
  ',': 305, '-': 335, '.': 305, '/': 300, ':': 340, ';': 340, '?': 620, '&': 735, '%': 970, '±': 640, '×': 640,
  '°': 405, '–': 505, '—': 1000, '\u2212': 640, '·': 335, '’': 285, '…': 900,
  a: 562, b: 598, c: 553, d: 598, e: 567, f: 313, g: 597, h: 590, i: 258, j: 256, k: 549, l: 258, m: 868,
  n: 590, o: 604, p: 598, q: 598, r: 368, s: 547, t: 320, u: 589, v: 535, w: 764, x: 552, y: 535, z: 515,
  A: 715, B: 712, C: 727, D: 734, E: 678, F: 615, G: 800, H: 738, I: 290, J: 591, K: 701, L: 576, M: 850,
  N: 738, O: 788, P: 676, Q: 788, R: 723, S: 673, T: 625, U: 730, V: 677, W: 960, X: 692, Y: 683, Z: 640,
};

const digit = 580;
const unlisted = 1000;

/** Height of a capital letter over the type size, of the same font. */
export const capitalHeightShare = 0.686;

/**
 * Width of a text in the unit of `capitalMm`, the height of its capitals (ISO 3098 names lettering by that height).
 *
 * @example textWidthMm('900', 1.8) // 4.57
 */
export const textWidthMm = (text: string, capitalMm: number): number => {
  const sizeMm = capitalMm / capitalHeightShare;
  let thousandths = 0;
  for (const character of text)
    thousandths += /[0-9]/.test(character) ? digit : (widths[character] ?? unlisted);
  return (thousandths * sizeMm) / 1000;
};
