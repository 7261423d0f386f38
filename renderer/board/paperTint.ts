/**
 * The thinnest veil that makes white look like the paper: laid over white it gives exactly the paper's colour, over
 * black nearly black. A plain translucent colour, because blending modes cost far more to composite without a GPU.
 *
 * @param paper a computed CSS colour, `rgb(244, 242, 236)`.
 * @returns a CSS colour, or null where the paper is white (or is no opaque rgb colour) and needs no veil.
 * @example paperTint('rgb(244, 242, 236)') // 'rgb(107.3 80.5 0 / 0.0745)'
 */
export function paperTint(paper: string): string | null {
  const found = /^rgb\((\d+), (\d+), (\d+)\)$/.exec(paper);
  if (found === null) return null;
  const channels = found.slice(1).map(Number);
  const alpha = 1 - Math.min(...channels) / 255;
  if (alpha <= 0) return null;
  // Over white: 255 (1 - alpha) + veil alpha = paper.
  const veil = channels.map((channel) => ((channel - 255 * (1 - alpha)) / alpha).toFixed(1));
  return `rgb(${veil.join(' ')} / ${alpha.toFixed(4)})`;
}
