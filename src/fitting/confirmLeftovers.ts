import { leftoverVerdict } from './leftoverVerdict.ts';
import type { StraightSolver } from './straightSolver.ts';
import type { Stretch } from './stretch.ts';
import { compareSequences, type StretchLayout } from './stretchLayout.ts';

/** The same stretch with its right side moved: the straight measured longer or shorter. */
export const lengthenedStretch = (stretch: Stretch, byUm: number): Stretch => ({
  ...stretch,
  rightMinUm: stretch.rightMinUm + byUm,
  rightUm: stretch.rightUm + byUm,
  rightMaxUm: stretch.rightMaxUm + byUm,
});

/** The best layout of the stretch at another length, with the same share of the stations it could share. */
export const layoutAtLength = (
  solver: StraightSolver,
  layout: StretchLayout,
  byUm: number,
): StretchLayout | undefined => {
  const placed = layout.sequence.reduce((bits, piece) => bits | (piece.event?.bits ?? 0), 0);
  const stretch = lengthenedStretch(layout.stretch, byUm);
  if (stretch.leftMinUm > stretch.rightMaxUm) return undefined;
  // What stands beyond the moved side moves with it.
  const others = layout.others?.map((one) =>
    one.fromUm >= layout.stretch.rightUm ? { ...one, fromUm: one.fromUm + byUm, toUm: one.toUm + byUm } : one,
  );
  return solver.solveOne(stretch, others).byShared.get(placed & solver.sharedBits);
};

const verdictsOf = (leftUm: number, rightUm: number, uncertaintyUm: number, fillerMaxUm: number): string =>
  [leftUm, rightUm]
    .filter((part) => part > 0)
    .map((part) => leftoverVerdict(part, leftUm + rightUm, uncertaintyUm, fillerMaxUm))
    .join(' ');

/**
 * Whether a stretch's leftovers are confirmed: layout and verdicts hold over its length plus and minus the straight's
 * uncertainty. Reading of DESIGN section 5: each stretch is taken longer and shorter by the whole uncertainty (as the
 * rule for `closes` does); the same pieces must still fit with the same verdicts, each part taking its share of the
 * change, and no other layout may become the better one at either length. What `closes` is therefore never confirmed:
 * at the short length its pieces do not fit.
 */
export const isConfirmed = (solver: StraightSolver, layout: StretchLayout, fillerMaxUm: number): boolean => {
  const { leftUm, rightUm, stretch, sequence } = layout;
  const { uncertaintyUm } = stretch;
  const totalUm = leftUm + rightUm;
  if (uncertaintyUm === 0 || totalUm === 0) return true;
  const verdicts = verdictsOf(leftUm, rightUm, uncertaintyUm, fillerMaxUm);
  const parts = (leftUm > 0 ? 1 : 0) + (rightUm > 0 ? 1 : 0);
  for (const byUm of [-uncertaintyUm, uncertaintyUm]) {
    const share = byUm / parts;
    const left = leftUm > 0 ? leftUm + share : 0;
    const right = rightUm > 0 ? rightUm + share : 0;
    // With the parts shared out anew, as a fitter would: equal where two parts remain.
    const equal = parts === 2 ? (totalUm + byUm) / 2 : 0;
    if (totalUm + byUm <= 0 || left < 0 || right < 0) return false;
    if (verdictsOf(left, right, uncertaintyUm, fillerMaxUm) !== verdicts) return false;
    if (parts === 2 && verdictsOf(equal, equal, uncertaintyUm, fillerMaxUm) !== verdicts) return false;
    const other = layoutAtLength(solver, layout, byUm);
    if (other === undefined || compareSequences(other.sequence, sequence) !== 0) return false;
    if (verdictsOf(other.leftUm, other.rightUm, uncertaintyUm, fillerMaxUm) !== verdicts) return false;
  }
  return true;
};
