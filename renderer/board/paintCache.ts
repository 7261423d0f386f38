/** What painters draw once and use again: hatch tiles and lettered labels. One for each canvas and palette. */
export interface PaintCache {
  readonly patterns: Map<string, CanvasPattern>;
  readonly labels: Map<string, LabelPicture>;
  /** Lengths of texts, in CSS pixels. */
  readonly lengths: Map<string, number>;
}

/** A label drawn beforehand at its angle, haloed. */
export interface LabelPicture {
  readonly canvas: HTMLCanvasElement;
  /** From the label's place to the picture's top left corner, in device pixels. */
  readonly leftPx: number;
  readonly topPx: number;
}

/** Pictures kept at most; a crowded board shows a few hundred different labels. */
const MOST_LABELS = 800;

/** Makes an empty cache. */
export function createPaintCache(): PaintCache {
  return { patterns: new Map(), labels: new Map(), lengths: new Map() };
}

/** Forgets everything, after a change of palette or font. */
export function emptyPaintCache(cache: PaintCache): void {
  cache.patterns.clear();
  cache.labels.clear();
  cache.lengths.clear();
}

/** The picture for a key, drawn by `draw` when it is new. The oldest goes when there are too many. */
export function labelPicture(cache: PaintCache, key: string, draw: () => LabelPicture): LabelPicture {
  const known = cache.labels.get(key);
  if (known) return known;
  const oldest = cache.labels.keys().next().value;
  if (cache.labels.size >= MOST_LABELS && oldest !== undefined) cache.labels.delete(oldest);
  const picture = draw();
  cache.labels.set(key, picture);
  return picture;
}
