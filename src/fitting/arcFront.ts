import { type CurvedModule, curvedModule } from './curvedModule.ts';
import type { FillItem } from './fillStock.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';

/**
 * A straight whose front is an arc, as the solver sees it: straight again, where each piece takes the arc of the sector in
 * which it lies as seen from the centre. All lengths along the traced front.
 */
export interface ArcFront {
  readonly front: 'outside' | 'inside';
  readonly radiusMm: number;
  /** The arc of the sector that a piece of this width takes; nothing where none of that width can stand here. */
  readonly sectorUm: (widthMm: number) => number | undefined;
  /** From the side of its sector to where the corner of a piece's front lies. */
  readonly insetUm: (widthMm: number) => number;
  /** The piece in plan; nothing where none of that width can stand here. */
  readonly moduleOf: (widthMm: number) => CurvedModule | undefined;
  readonly jointUm: number;
}

/** How far along an arc a piece's front corner lies from its middle, as an angle at the centre. */
const frontHalfRad = (module: CurvedModule, front: 'outside' | 'inside'): number =>
  front === 'outside' ? module.narrowHalfAngleRad : module.halfAngleRad;

/**
 * The arc that the front of a straight is, or nothing where it is straight. Cladding stands in front of the pieces, so
 * that their own arc has a smaller radius where the front is outside and a larger one where it is inside. Sectors and
 * joints are rounded up to the micrometre: neighbours never stand nearer than they may. The joint allowance is kept, as
 * a chord, at the line along which neighbours are nearest: the back line where the front is outside, else the front.
 */
export const arcFrontOf = (problem: FitProblem, straight: number): ArcFront | undefined => {
  const { arc } = problem.straights[straight]!;
  if (arc === undefined) return undefined;
  const { front, radiusMm } = arc;
  const { jointMm = 0, claddingMm = 0 } = problem.allowances ?? {};
  const ownMm = front === 'outside' ? radiusMm - claddingMm : radiusMm + claddingMm;
  const nearestMm = front === 'outside' ? ownMm - problem.depthMm : ownMm;
  const { overhangMaxMm = Number.POSITIVE_INFINITY } = problem;
  const moduleOf = (widthMm: number): CurvedModule | undefined => {
    const module = curvedModule(widthMm, ownMm, problem.depthMm, front);
    return module !== undefined && module.overhangMm <= overhangMaxMm ? module : undefined;
  };
  const arcUm = (rad: number): number => rad * radiusMm * 1000;
  const roundedUp = (um: number): number => Math.ceil(um - 1e-6);
  return {
    front,
    radiusMm,
    moduleOf,
    sectorUm: (widthMm) => {
      const module = moduleOf(widthMm);
      return module && roundedUp(arcUm(2 * module.halfAngleRad));
    },
    insetUm: (widthMm) => {
      const module = moduleOf(widthMm);
      if (module === undefined) return 0;
      const sector = roundedUp(arcUm(2 * module.halfAngleRad));
      return Math.floor((sector - arcUm(2 * frontHalfRad(module, front))) / 2);
    },
    jointUm: roundedUp(arcUm(2 * Math.asin(Math.min(1, jointMm / (2 * nearestMm))))),
  };
};

/** The fill stock as it stands on an arc: each item's width that of its sector; without those that can't stand there. */
export const fillOnArc = (fill: readonly FillItem[], arc: ArcFront): readonly FillItem[] =>
  fill.flatMap((item) => {
    const widthUm = arc.sectorUm(item.widthUm / 1000);
    return widthUm === undefined ? [] : [{ ...item, widthUm, ownUm: item.widthUm }];
  });

/** The joint allowance along the front of a straight. */
export const jointUmOn = (problem: FitProblem, straight: number): number =>
  arcFrontOf(problem, straight)?.jointUm ?? micrometres(problem.allowances?.jointMm ?? 0);
