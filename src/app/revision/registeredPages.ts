import { type ChangedLinework, changedLinework } from '../../sheet/registration/changedLinework.ts';
import { type PickedPair, registerByPicks } from '../../sheet/registration/registerByPicks.ts';
import { registerSheets } from '../../sheet/registration/registerSheets.ts';
import {
  positionUncertaintyPt,
  type RegistrationUncertainty,
} from '../../sheet/registration/registrationUncertainty.ts';
import type { RegistrationSheet } from '../../sheet/registration/sheetRegistration.ts';
import { type Similarity, similarityScale } from '../../sheet/registration/similarity.ts';

/** How a page lies to an earlier one, and what differs between them. Places in the new page's user space. */
export type RegisteredPages =
  | {
      readonly isRegistered: true;
      readonly isSure: boolean;
      readonly method: 'linework' | 'picks';
      readonly transform: Similarity;
      readonly uncertainty: RegistrationUncertainty;
      /** +/- (k = 2) of a point carried over, at the middle of the old sheet's linework and at its worst corner. */
      readonly plusMinusPt: number;
      readonly worstPlusMinusPt: number;
      readonly reasons: readonly string[];
      readonly changes: ChangedLinework;
      readonly tolerancePt: number;
    }
  | { readonly isRegistered: false; readonly reasons: readonly string[] };

/** What a page is laid on an earlier one by. */
export type RegistrationBasis =
  | { readonly by: 'linework' }
  | { readonly by: 'picks'; readonly pairs: readonly PickedPair[] }
  /** As it was accepted before; +/- (k = 2) of a point carried over. */
  | { readonly by: 'known'; readonly transform: Similarity; readonly plusMinusPt: number };

/** Parts shown at most; more than these are another drawing, not a revision. */
const partsMost = 20_000;

/** Lines nearer than this are the same line, whatever the match leaves open, in points. */
const leastTolerancePt = 0.6;

const boundedChanges = (changes: ChangedLinework): ChangedLinework => {
  if (changes.gone.length <= partsMost && changes.added.length <= partsMost) return changes;
  const [gone, added] = [changes.gone.slice(0, partsMost), changes.added.slice(0, partsMost)];
  return {
    gone,
    added,
    moved: changes.moved.filter((move) => move.gone < gone.length && move.added < added.length),
  };
};

/** Lays a page on an earlier one and finds what differs. */
export const registerPages = (
  old: RegistrationSheet,
  next: RegistrationSheet,
  basis: RegistrationBasis,
  onProgress: (done: number, of: number) => void,
): RegisteredPages => {
  let isSure = true;
  let reasons: readonly string[] = [];
  let found: { readonly transform: Similarity; readonly uncertainty: RegistrationUncertainty };
  if (basis.by === 'known') {
    const place = (basis.plusMinusPt / 2) ** 2 / 2;
    const covariance = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, place, 0, 0, 0, 0, place];
    found = { transform: basis.transform, uncertainty: { centre: { x: 0, y: 0 }, covariance } };
  } else if (basis.by === 'picks') {
    const picked = registerByPicks(basis.pairs);
    if ('error' in picked) return { isRegistered: false, reasons: [picked.error.message] };
    found = picked;
    isSure = picked.warning === null;
    reasons = picked.warning
      ? [picked.warning.message]
      : [`By ${basis.pairs.length} places picked on both sheets.`];
  } else {
    const registered = registerSheets(old, next, { onProgress });
    reasons = registered.reasons.map(({ message }) => message);
    if (registered.certainty === 'none') return { isRegistered: false, reasons };
    found = registered;
    isSure = registered.certainty === 'sure';
  }
  const { transform, uncertainty } = found;
  const { minX, minY, maxX, maxY } = old.viewBox;
  const at = (x: number, y: number) => positionUncertaintyPt(uncertainty, { x, y });
  const plusMinusPt = at((minX + maxX) / 2, (minY + maxY) / 2);
  const worstPlusMinusPt = Math.max(at(minX, minY), at(maxX, minY), at(minX, maxY), at(maxX, maxY));
  const tolerancePt = Math.max(leastTolerancePt, 2 * plusMinusPt);
  const changes = changedLinework(old.linework, next.linework, transform, tolerancePt);
  return {
    isRegistered: true,
    isSure,
    method: basis.by === 'picks' ? 'picks' : 'linework',
    transform,
    uncertainty,
    plusMinusPt,
    worstPlusMinusPt,
    reasons,
    changes: boundedChanges(changes),
    tolerancePt,
  };
};

/** Relative +/- (k = 2) of the size that a registration gives lengths: its covariance's first number over the scale. */
export const sizeUncertainty = ({
  transform,
  uncertainty,
}: {
  readonly transform: Similarity;
  readonly uncertainty: RegistrationUncertainty;
}): number => (2 * Math.sqrt(Math.max(0, uncertainty.covariance[0] ?? 0))) / similarityScale(transform);
