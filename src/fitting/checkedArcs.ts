import type { FitAlternative, FitPiece, FitWedge } from './fitAnswer.ts';
import type { FitViolation } from './fitViolation.ts';
import type { FitProblem } from './problemSchema.ts';

type Place = readonly [x: number, y: number];

/** A piece on an arc drawn in plan, the circle's centre at the origin: corners at the front, then at the back. */
interface DrawnPiece {
  readonly frontStart: Place;
  readonly frontEnd: Place;
  readonly backStart: Place;
  readonly backEnd: Place;
  readonly middleRad: number;
}

type Arc = NonNullable<FitProblem['straights'][number]['arc']>;

/** Rounded to whole micrometres as they are, lengths along the front may differ by this. */
const toleranceMm = 0.002;

const distance = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

const carcassRadiusMm = (problem: FitProblem, arc: Arc): number => {
  const claddingMm = problem.allowances?.claddingMm ?? 0;
  return arc.front === 'outside' ? arc.radiusMm - claddingMm : arc.radiusMm + claddingMm;
};

/**
 * Draws a piece of a width square to the radius through its middle. With the front outside its face is moved in until its
 * corners lie on the circle; with the front inside its middle touches it. Angles grow along the front.
 */
const drawn = (problem: FitProblem, arc: Arc, widthMm: number, middleMm: number): DrawnPiece => {
  const radiusMm = carcassRadiusMm(problem, arc);
  const half = widthMm / 2;
  const isOutside = arc.front === 'outside';
  const faceMm = isOutside ? Math.sqrt(Math.max(0, radiusMm * radiusMm - half * half)) : radiusMm;
  const backMm = isOutside ? faceMm - problem.depthMm : faceMm + problem.depthMm;
  const middleRad = middleMm / arc.radiusMm;
  const at = (outMm: number, alongMm: number): Place => [
    outMm * Math.cos(middleRad) - alongMm * Math.sin(middleRad),
    outMm * Math.sin(middleRad) + alongMm * Math.cos(middleRad),
  ];
  return {
    frontStart: at(faceMm, -half),
    frontEnd: at(faceMm, half),
    backStart: at(backMm, -half),
    backEnd: at(backMm, half),
    middleRad,
  };
};

/** The angle of a place, counted from the middle of a piece. */
const fromMiddle = ([x, y]: Place, { middleRad }: DrawnPiece): number => {
  const [along, out] = [
    y * Math.cos(middleRad) - x * Math.sin(middleRad),
    x * Math.cos(middleRad) + y * Math.sin(middleRad),
  ];
  return Math.atan2(along, out);
};

/** The arc of the sector in which a drawn piece lies, in whole micrometres, no less than it is. */
const sectorMm = (piece: DrawnPiece, arc: Arc): number => {
  const widest = Math.max(...[piece.frontEnd, piece.backEnd].map((corner) => fromMiddle(corner, piece)));
  return Math.ceil(2 * widest * arc.radiusMm * 1000 - 1e-5) / 1000;
};

/** The joint allowance of a straight along its front: on an arc kept as a chord where neighbours are nearest. */
export const checkedJointMm = (problem: FitProblem, straight: number): number => {
  const { jointMm = 0 } = problem.allowances ?? {};
  const arc = problem.straights[straight]?.arc;
  if (arc === undefined || jointMm === 0) return jointMm;
  const radiusMm = carcassRadiusMm(problem, arc);
  const nearestMm = arc.front === 'outside' ? radiusMm - problem.depthMm : radiusMm;
  // The angle of a chord by bisection: the chord grows with it.
  let [low, high] = [0, Math.PI];
  for (let round = 0; round < 200; round += 1) {
    const middle = (low + high) / 2;
    if (2 * nearestMm * Math.sin(middle / 2) < jointMm) low = middle;
    else high = middle;
  }
  return Math.ceil(high * arc.radiusMm * 1000 - 1e-5) / 1000;
};

const takesLength = (piece: FitPiece): boolean => piece.host === undefined;

/**
 * Checks the pieces on arcs against the circle: their width, where the corners of their fronts are said to be, how far the
 * top overhangs them, and the wedges between them. Gives the answer with what each piece takes of the front in place of
 * where its front's corners are, so that the rest can be checked as on a straight.
 */
export const checkedOnArcs = (
  problem: FitProblem,
  alternative: FitAlternative,
  path: string,
  violations: FitViolation[],
): FitAlternative => {
  const widths = new Map(problem.stock.map(({ id, widthMm }) => [id, widthMm]));
  const drawnPieces = new Map<number, DrawnPiece>();
  const pieces = alternative.pieces.map((piece, index): FitPiece => {
    const arc = problem.straights[piece.straight]?.arc;
    const widthMm = widths.get(piece.item);
    if (arc === undefined || widthMm === undefined || !takesLength(piece)) return piece;
    const refuse = (code: string, message: string) =>
      violations.push({ code, message, path: `${path}.pieces[${index}]` });
    const middleMm = (piece.fromMm + piece.toMm) / 2;
    const plan = drawn(problem, arc, widthMm, middleMm);
    drawnPieces.set(index, plan);
    if (piece.widthMm !== widthMm)
      refuse('wrong-width', `${piece.item} is ${widthMm} wide, given as ${piece.widthMm}.`);
    const frontMm = 2 * fromMiddle(plan.frontEnd, plan) * arc.radiusMm;
    if (Math.abs(piece.toMm - piece.fromMm - frontMm) > toleranceMm) {
      refuse('wrong-width', `${piece.item} takes ${frontMm} of the arc, drawn ${piece.toMm - piece.fromMm}.`);
    }
    // The face is nearest to the centre in its middle and furthest at its corners.
    const corner = distance(plan.frontStart, [0, 0]);
    const face = distance(
      [(plan.frontStart[0] + plan.frontEnd[0]) / 2, (plan.frontStart[1] + plan.frontEnd[1]) / 2],
      [0, 0],
    );
    const overhangMm = Math.max(corner - face, 0);
    if (Math.abs((piece.overhangMm ?? Number.NaN) - overhangMm) > toleranceMm) {
      refuse(
        'wrong-overhang',
        `The top overhangs ${piece.item} by ${overhangMm}, given as ${piece.overhangMm}.`,
      );
    }
    if (overhangMm > (problem.overhangMaxMm ?? Number.POSITIVE_INFINITY) + toleranceMm) {
      refuse('overhangs-too-far', `The top overhangs ${piece.item} by ${overhangMm}.`);
    }
    const half = sectorMm(plan, arc) / 2;
    return { ...piece, fromMm: middleMm - half, toMm: middleMm + half };
  });
  checkWedges(problem, alternative, drawnPieces, pieces, path, violations);
  return { ...alternative, pieces };
};

/** Each wedge that is given opens as the corners of its neighbours do, and none between neighbours is missing. */
const checkWedges = (
  problem: FitProblem,
  alternative: FitAlternative,
  drawnPieces: ReadonlyMap<number, DrawnPiece>,
  sectors: readonly FitPiece[],
  path: string,
  violations: FitViolation[],
): void => {
  const wedges = alternative.wedges ?? [];
  for (const [index, wedge] of wedges.entries()) {
    const refuse = (code: string, message: string) =>
      violations.push({ code, message, path: `${path}.wedges[${index}]` });
    const arc = problem.straights[wedge.straight]?.arc;
    const [one, other] = [drawnPieces.get(wedge.after ?? -1), drawnPieces.get(wedge.before ?? -1)];
    if (arc === undefined || (one === undefined && other === undefined)) {
      refuse('wedge-misplaced', 'A wedge lies beside a piece on an arc.');
      continue;
    }
    const expected =
      one && other
        ? {
            frontMm: distance(one.frontEnd, other.frontStart),
            backMm: distance(one.backEnd, other.backStart),
            angleDeg: ((other.middleRad - one.middleRad) * 180) / Math.PI,
          }
        : endWedge(wedge, (one ?? other)!, arc, sectors);
    for (const name of ['frontMm', 'backMm'] as const) {
      if (Math.abs(wedge[name] - expected[name]) > 2 * toleranceMm) {
        refuse('wrong-wedge', `${name} of the wedge is ${expected[name]}, given as ${wedge[name]}.`);
      }
    }
    if (Math.abs(wedge.angleDeg - expected.angleDeg) > 0.001) {
      refuse('wrong-wedge', `The wedge has ${expected.angleDeg} degrees, given as ${wedge.angleDeg}.`);
    }
  }
  const onArcs = [...drawnPieces.keys()];
  for (const [rank, before] of onArcs.slice(1).entries()) {
    const after = onArcs[rank]!;
    const [one, other] = [sectors[after]!, sectors[before]!];
    const isNext =
      one.straight === other.straight &&
      other.fromMm - one.toMm <= checkedJointMm(problem, one.straight) + 2 * toleranceMm;
    const [a, b] = [drawnPieces.get(after)!, drawnPieces.get(before)!];
    const openMm = Math.max(distance(a.frontEnd, b.frontStart), distance(a.backEnd, b.backStart));
    if (!isNext || openMm < 1 || wedges.some((wedge) => wedge.after === after && wedge.before === before))
      continue;
    violations.push({
      code: 'wedge-missing',
      message: `Between ${one.item} and ${other.item} a wedge of ${openMm} opens.`,
      path: `${path}.wedges`,
    });
  }
};

/** What opens between an outermost piece and the radius at the side of its sector. */
const endWedge = (
  wedge: FitWedge,
  piece: DrawnPiece,
  arc: Arc,
  sectors: readonly FitPiece[],
): Pick<FitWedge, 'frontMm' | 'backMm' | 'angleDeg'> => {
  const isAtEnd = wedge.after !== undefined;
  const sector = sectors[(wedge.after ?? wedge.before)!]!;
  const rad = (isAtEnd ? sector.toMm : sector.fromMm) / arc.radiusMm;
  // How far a corner lies from the line through the centre in that direction.
  const fromLine = ([x, y]: Place) => Math.abs(x * Math.sin(rad) - y * Math.cos(rad));
  return {
    frontMm: fromLine(isAtEnd ? piece.frontEnd : piece.frontStart),
    backMm: fromLine(isAtEnd ? piece.backEnd : piece.backStart),
    angleDeg: (Math.abs(rad - piece.middleRad) * 180) / Math.PI,
  };
};

/** What a wedge at a corner beside an arc takes off both straights, found by walking back along both fronts. */
export const checkedArcMitre = (
  problem: FitProblem,
  index: number,
): { readonly beforeMm: number; readonly afterMm: number } | undefined => {
  const turnRad = (problem.corners![index]!.turnDeg * Math.PI) / 180;
  const claddingMm = problem.allowances?.claddingMm ?? 0;
  const offsetMm = turnRad > 0 ? claddingMm + problem.depthMm : claddingMm;
  if (offsetMm === 0) return { beforeMm: 0, afterMm: 0 };
  /** The place `offsetMm` behind the front, `walkedMm` along it from the corner, where it leaves in `headingRad`. */
  const behind = (straight: number, headingRad: number, walkedMm: number): Place => {
    const arc = problem.straights[straight]!.arc;
    const curvature = arc === undefined ? 0 : (arc.front === 'outside' ? 1 : -1) / arc.radiusMm;
    const turned = walkedMm * curvature;
    // Along a circle from the origin; a straight is the limit.
    const forwards = curvature === 0 ? walkedMm : Math.sin(turned) / curvature;
    const left = curvature === 0 ? 0 : (1 - Math.cos(turned)) / curvature;
    const [x, y] = [forwards - offsetMm * Math.sin(turned), left + offsetMm * Math.cos(turned)];
    return [
      x * Math.cos(headingRad) - y * Math.sin(headingRad),
      x * Math.sin(headingRad) + y * Math.cos(headingRad),
    ];
  };
  let [a, b] = [-offsetMm * Math.tan(turnRad / 2), offsetMm * Math.tan(turnRad / 2)];
  const apart = (one: number, other: number): Place => {
    const [p, q] = [behind(index, 0, one), behind(index + 1, turnRad, other)];
    return [p[0] - q[0], p[1] - q[1]];
  };
  // Newton's method in the two lengths walked.
  for (let round = 0; round < 60; round += 1) {
    const [x, y] = apart(a, b);
    const step = 1e-3;
    const [ax, ay] = apart(a + step, b).map((value, at) => (value - (at === 0 ? x : y)) / step);
    const [bx, by] = apart(a, b + step).map((value, at) => (value - (at === 0 ? x : y)) / step);
    const determinant = ax! * by! - ay! * bx!;
    if (Math.abs(determinant) < 1e-12) return undefined;
    a -= (x * by! - y * bx!) / determinant;
    b -= (y * ax! - x * ay!) / determinant;
  }
  const [x, y] = apart(a, b);
  return Math.hypot(x, y) < 1e-4 ? { beforeMm: -a, afterMm: b } : undefined;
};
