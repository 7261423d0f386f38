import { keptSpanOf, type RunZone } from '../../measure/zonesOfRun.ts';
import { isColumnPassed } from '../../quote/isColumnPassed.ts';
import type { ElevationInput } from './elevationInput.ts';

/** What a length of the run is taken by. */
export type SpanKind =
  | 'piece'
  | 'leftover'
  | 'opening'
  | 'blocked'
  | 'bay'
  | 'low'
  | 'joint'
  | 'wedge'
  | 'scribe'
  | 'end-panel'
  | 'give'
  | 'corner'
  | 'free';

/** A length of one straight, mm along its traced front. `index` counts in the list that its kind comes from. */
export interface Span {
  readonly kind: SpanKind;
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** Of a piece, leftover, wedge, zone or corner. */
  readonly index: number;
}

/** A straight's spans without gap or overlap from `lowMm` to `highMm`, which hold the traced length and what reaches beyond it. */
export interface StraightSpans {
  readonly straight: number;
  readonly lengthMm: number;
  readonly lowMm: number;
  readonly highMm: number;
  readonly spans: readonly Span[];
}

/** What the lengths of a run follow from. */
type SpanInput = Pick<ElevationInput, 'run' | 'straights' | 'zones' | 'alternative'>;

/** Lengths below a micrometre are the last bits of float arithmetic. */
const nothingMm = 0.0005;

/** Splits every straight of a run into what takes its length. */
export const spansOf = (input: SpanInput): readonly StraightSpans[] =>
  input.straights.map(({ lengthMm }, straight) => spansOfStraight(input, straight, lengthMm));

const spansOfStraight = (input: SpanInput, straight: number, lengthMm: number): StraightSpans => {
  const { alternative, zones } = input;
  const isPassed = (zone: RunZone): boolean => isColumnPassed(zone, alternative);
  const own = <Item extends { readonly straight: number; readonly fromMm: number; readonly toMm: number }>(
    kind: SpanKind,
    items: readonly Item[],
  ): Span[] =>
    items.flatMap((item, index) =>
      item.straight === straight && item.toMm - item.fromMm > nothingMm
        ? [{ kind, straight, fromMm: item.fromMm, toMm: item.toMm, index }]
        : [],
    );
  const standing = own('piece', alternative?.pieces ?? []).filter(
    ({ index }) => alternative?.pieces[index]?.host === undefined,
  );
  const fitted = [
    ...standing,
    ...own('leftover', alternative?.leftovers ?? []),
    ...own('wedge', alternative?.wedges ?? []),
  ];
  const marked = own(
    'opening',
    zones.map((zone) => ({ ...zone, ...keptSpanOf(zone) })),
  )
    // Pieces stand in front of a column that is passed.
    .filter((span) => !isPassed(zones[span.index]!))
    .map((span) => ({ ...span, kind: zones[span.index]!.kind }))
    // A zone may reach past the run's end, and its picks are finer than the fit's micrometres: it gives way to both.
    .map((span) => ({
      ...span,
      fromMm: Math.max(0, span.fromMm, ...fitted.filter(isBefore(span)).map(({ toMm }) => toMm)),
      toMm: Math.min(lengthMm, span.toMm, ...fitted.filter(isBehind(span)).map(({ fromMm }) => fromMm)),
    }));
  const taken = withoutOverlap([...fitted, ...marked]);

  const isFitted = alternative !== null;
  const panelMm = isFitted ? input.run.allowances.endPanelMm : 0;
  const first = taken[0];
  const last = taken.at(-1);
  const isFirst = straight === 0;
  const isLast = straight === input.straights.length - 1;
  const holds = (span: Span | undefined) =>
    span?.kind === 'piece' || span?.kind === 'leftover' || span?.kind === 'wedge';
  const startPanel = isFirst && input.run.ends[0].kind === 'exposed' && holds(first) ? panelMm : 0;
  const endPanel = isLast && input.run.ends[1].kind === 'exposed' && holds(last) ? panelMm : 0;
  const lowMm = Math.min(0, (first?.fromMm ?? 0) - startPanel);
  const highMm = Math.max(lengthMm, (last?.toMm ?? lengthMm) + endPanel);

  const spans: Span[] = [];
  const add = (kind: SpanKind, fromMm: number, toMm: number, index = -1): void => {
    if (toMm - fromMm > nothingMm) spans.push({ kind, straight, fromMm, toMm, index });
  };
  /** A gap at the start or the end of the straight; `inner` is its side towards the pieces. */
  const addOuterGap = (fromMm: number, toMm: number, side: 'start' | 'end'): void => {
    const isEndOfRun = side === 'start' ? isFirst : isLast;
    if (!isFitted) add('free', fromMm, toMm);
    else if (!isEndOfRun) add('corner', fromMm, toMm, side === 'start' ? straight - 1 : straight);
    else if (input.run.ends[side === 'start' ? 0 : 1].kind === 'wall') add('scribe', fromMm, toMm);
    else if (input.run.ends[side === 'start' ? 0 : 1].kind === 'meets') add('free', fromMm, toMm);
    else if (side === 'start') {
      add('give', fromMm, toMm - startPanel);
      add('end-panel', toMm - startPanel, toMm);
    } else {
      add('end-panel', fromMm, fromMm + endPanel);
      add('give', fromMm + endPanel, toMm);
    }
  };
  let walkedMm = lowMm;
  for (const [index, span] of taken.entries()) {
    if (span.fromMm - walkedMm > nothingMm) {
      const before = taken[index - 1];
      if (index === 0) addOuterGap(walkedMm, span.fromMm, 'start');
      else if (before?.kind === 'piece' && span.kind === 'piece') add('joint', walkedMm, span.fromMm);
      else add('free', walkedMm, span.fromMm);
    }
    spans.push(span);
    walkedMm = span.toMm;
  }
  if (highMm - walkedMm > nothingMm) addOuterGap(walkedMm, highMm, 'end');
  return { straight, lengthMm, lowMm, highMm, spans };
};

const middleOf = ({ fromMm, toMm }: Span): number => (fromMm + toMm) / 2;
const isBefore = (span: Span) => (other: Span) => middleOf(other) < middleOf(span);
const isBehind = (span: Span) => (other: Span) => middleOf(other) > middleOf(span);

/** In order along the front; where two lie over one another, the later gives way. */
const withoutOverlap = (spans: readonly Span[]): readonly Span[] => {
  const kept: Span[] = [];
  let walkedMm = Number.NEGATIVE_INFINITY;
  for (const span of spans.toSorted((one, other) => one.fromMm - other.fromMm || one.toMm - other.toMm)) {
    const fromMm = Math.max(span.fromMm, walkedMm);
    if (span.toMm - fromMm <= nothingMm) continue;
    kept.push({ ...span, fromMm });
    walkedMm = span.toMm;
  }
  return kept;
};
