import type { z } from 'zod';
import type { WayInAnswer } from '../access/checkWayIn.ts';
import type { FitAnswer } from '../fitting/fitAnswer.ts';
import type { readAnswerSchema } from '../scale/readContract.ts';

/** The answers of the contracts (DESIGN section 6) in words, for a person at the command line. */

type Reading = z.infer<typeof readAnswerSchema>;

const mm = (value: number): string => String(Math.round(value * 100) / 100);
const lines = (...parts: readonly (string | readonly string[])[]): string => parts.flat().join('\n');

const describeScale = ({ scale }: Reading): readonly string[] => {
  const { ratio, relativeUncertainty, status, evidence } = scale;
  const uncertainty =
    typeof relativeUncertainty === 'number' ? ` ± ${mm(relativeUncertainty * 100)} % (k = 2)` : '';
  return [
    typeof ratio === 'number' ? `Scale 1:${mm(ratio)}${uncertainty}, ${status}` : `Scale: ${status}`,
    ...evidence.map(
      (one) =>
        `  ${one.kind}${one.ratio === undefined ? '' : ` says 1:${mm(one.ratio)}`}${one.text ? ` ("${one.text}")` : ''}`,
    ),
  ];
};

/** A reading of `footrail read` in words. */
export const describeReading = (reading: Reading): string => {
  const { pages, page, sheet, linework } = reading;
  return lines(
    `Page ${page} of ${pages}: ${sheet.name}, ${mm(sheet.widthMm)} × ${mm(sheet.heightMm)} mm`,
    `Linework: ${linework.segments} segments, ${linework.curves} curves`,
    describeScale(reading),
  );
};

/** An answer of `footrail fit` in words. */
export const describeFit = ({ status, alternatives, explanation, questions }: FitAnswer): string => {
  return lines(
    `${status}: ${explanation}`,
    alternatives.flatMap(({ reason, pieces, leftovers }, index) => [
      `${index + 1}. ${reason}`,
      ...pieces.map(
        (piece) =>
          `   straight ${piece.straight + 1}: ${piece.item}, ${mm(piece.fromMm)} to ${mm(piece.toMm)} mm`,
      ),
      ...leftovers.map(
        (leftover) =>
          `   straight ${leftover.straight + 1}: ${leftover.verdict}, ${mm(leftover.widthMm)} mm at ${mm(leftover.fromMm)} to ${mm(leftover.toMm)} mm${leftover.confirmed ? '' : ' (measure on site)'}`,
      ),
    ]),
    questions.map((question) => `? ${question}`),
  );
};

/** An answer of `footrail access` in words. */
export const describeAccess = ({ pieces }: WayInAnswer): string =>
  lines(
    pieces.map((piece) => {
      const verdict = `${piece.passes ? 'passes' : 'does not pass'}${piece.sure ? '' : ' (not sure: measure on site)'}`;
      const limit =
        piece.limitedBy === undefined ? '' : `, limited by the ${piece.limitedByName ?? piece.limitedBy}`;
      const longest = piece.lengthLimited ? `, longest ${mm(piece.longestMm)} mm` : '';
      return `${piece.id}: ${verdict}, margin ${mm(piece.marginMm)} mm${limit}${longest}`;
    }),
  );
