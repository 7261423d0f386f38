import { type DisplayUnit, formatLength, formatPlusMinus } from '../../units/formatLength.ts';
import type { ChainLink, DimensionChain } from '../drawing/drawing.ts';
import type { PartName } from '../fitOnPlan.ts';
import type { DevelopedRun } from './developedRun.ts';
import type { ElevationInput } from './elevationInput.ts';
import { partOfSpan } from './partOfSpan.ts';
import type { SpanKind, StraightSpans } from './spansOf.ts';

/** A length on the drawing without its unit, which the drawing states once. */
export const drawnLength = (lengthMm: number, unit: DisplayUnit): string =>
  formatLength(lengthMm, { unit }).replace(/\s*mm$/, '');

const ranks: Readonly<Record<SpanKind, number>> = {
  piece: 9,
  leftover: 8,
  opening: 7,
  blocked: 7,
  bay: 7,
  low: 7,
  corner: 6,
  give: 4,
  free: 4,
  'end-panel': 2,
  scribe: 2,
  joint: 1,
  wedge: 1,
};

/**
 * The dimension chains of the elevation: every length that something takes, then the traced length of each straight with
 * its +/- and what reaches beyond it.
 */
export const elevationChains = (
  input: ElevationInput,
  straights: readonly StraightSpans[],
  developed: DevelopedRun,
): readonly DimensionChain<PartName>[] => {
  const { unit } = input;
  const all = straights.flatMap(({ spans }) => spans);
  const pieces = all
    .map((span): ChainLink<PartName> => {
      const { left, right } = developed.stretch(span);
      const part = partOfSpan(input, span);
      const mark = span.kind === 'piece' ? input.marks?.pieces[span.index] : undefined;
      const piece = span.kind === 'piece' ? input.alternative?.pieces[span.index] : undefined;
      // On an arc a piece is not as wide as what it takes of the front.
      const lengthMm = piece?.widthMm ?? span.toMm - span.fromMm;
      return {
        fromMm: left,
        toMm: right,
        text: span.kind === 'joint' || span.kind === 'wedge' ? '' : drawnLength(lengthMm, unit),
        rank: ranks[span.kind],
        ...(mark === undefined ? {} : { mark }),
        ...(part === undefined ? {} : { part }),
      };
    })
    .sort((one, other) => one.fromMm - other.fromMm);

  const totals = straights
    .flatMap(({ straight, lengthMm, lowMm, highMm }): ChainLink<PartName>[] => {
      const link = (fromMm: number, toMm: number, text: string, quietText?: string): ChainLink<PartName> => {
        const { left, right } = developed.stretch({ straight, fromMm, toMm });
        return { fromMm: left, toMm: right, text, rank: 9, ...(quietText ? { quietText } : {}) };
      };
      const plusMinusMm = input.straights[straight]?.plusMinusMm ?? 0;
      const total = link(
        0,
        lengthMm,
        drawnLength(lengthMm, unit),
        formatPlusMinus(plusMinusMm, { unit }).replace(/\s*mm$/, ''),
      );
      return [
        ...(lowMm < -0.0005 ? [link(lowMm, 0, `+ ${drawnLength(-lowMm, unit)}`)] : []),
        total,
        ...(highMm - lengthMm > 0.0005
          ? [link(lengthMm, highMm, `+ ${drawnLength(highMm - lengthMm, unit)}`)]
          : []),
      ];
    })
    .sort((one, other) => one.fromMm - other.fromMm);

  const saysMore = all.some(({ kind }) => kind !== 'free');
  return saysMore ? [{ links: pieces }, { links: totals }] : [{ links: totals }];
};
