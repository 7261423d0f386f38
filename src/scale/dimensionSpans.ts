import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import type { LineworkIndex } from '../sheet/lineworkIndex.ts';
import type { TextRun } from '../sheet/textRun.ts';
import { type Carrier, findCarriers } from './dimensionCarrier.ts';
import { findStops, type Stop } from './dimensionStops.ts';

/** A length on the drawing that a dimension text may state. */
export interface DimensionSpan {
  readonly a: PaperPoint;
  readonly b: PaperPoint;
  /** In user-space units. */
  readonly length: number;
  /** How much it looks like the text's dimension, above 0; 1 or more is a good one. */
  readonly weight: number;
}

/** Only so many stops on each side of the text, the best for their distance, are paired. */
const MOST_STOPS = 9;

const MOST_SPANS = 14;

/** A stop needs at least this score: a lone crossing line ends no dimension. */
const LEAST_SCORE = 0.7;

/**
 * The lengths that a dimension text may state, likeliest first: between stops on both sides of it along each line
 * nearby, its middle near the text; or, for a text set beside its dimension, between the two stops next to it.
 */
export const findSpans = (text: TextRun, index: LineworkIndex): readonly DimensionSpan[] => {
  const spans: DimensionSpan[] = [];
  for (const carrier of findCarriers(text, index)) {
    const stops = findStops(carrier, text, index).filter(({ score }) => score >= LEAST_SCORE);
    const left = bestStops(stops.filter(({ at }) => at < 0));
    const right = bestStops(stops.filter(({ at }) => at > 0));
    for (const start of left) {
      for (const end of right) addSpan(spans, carrier, text, start, end, centring(start, end, text));
    }
    for (const side of [left, right]) {
      const [near, next] = [...side].sort((a, b) => Math.abs(a.at) - Math.abs(b.at));
      const isBeside = near && next && Math.abs(near.at) < text.width / 2 + 1.5 * text.size;
      if (isBeside) addSpan(spans, carrier, text, near, next, 0.15);
    }
  }
  return spans.sort((a, b) => b.weight - a.weight).slice(0, MOST_SPANS);
};

const bestStops = (stops: readonly Stop[]): readonly Stop[] =>
  [...stops]
    .sort((a, b) => Math.abs(a.at) / (a.score * a.score) - Math.abs(b.at) / (b.score * b.score))
    .slice(0, MOST_STOPS);

/** 1 where the text stands in the middle of the span, falling to a sixth at its end. */
const centring = (start: Stop, end: Stop, text: TextRun): number => {
  const middle = Math.abs(start.at + end.at) / 2;
  const slack = 0.12 * (end.at - start.at) + 0.3 * text.size;
  return 0.17 + 0.83 * Math.exp(-((middle / slack) ** 2));
};

const addSpan = (
  spans: DimensionSpan[],
  carrier: Carrier,
  text: TextRun,
  start: Stop,
  end: Stop,
  centred: number,
): void => {
  const [from, to] = start.at < end.at ? [start.at, end.at] : [end.at, start.at];
  const length = to - from;
  if (length < 0.4 * text.size) return;
  const { x, y, ux, uy } = carrier;
  const marks = Math.min(1.25, Math.min(start.score, end.score) / 1.6);
  const near = carrier.away < 1.4 ? 1 : 0.7;
  spans.push({
    a: paperPoint(x + from * ux, y + from * uy),
    b: paperPoint(x + to * ux, y + to * uy),
    length,
    weight: marks * centred * near * (carrier.isAligned ? 1 : 0.55),
  });
};
