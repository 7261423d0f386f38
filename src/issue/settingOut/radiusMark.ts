import type { Point } from '../../geometry/point.ts';
import { pointBetween } from '../../geometry/vector.ts';
import { type DisplayUnit, formatPlusMinus } from '../../units/formatLength.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import type { FloorBend } from './floorPlan.ts';
import { capital, ink, lines } from './planInk.ts';
import { uprightAngle } from './ringLettering.ts';

/** Half of the arms of a centre mark, and of an arrow's length, mm of paper. */
const armMm = 1.8;
const arrowMm = 2.2;

/**
 * The radius of an arc: its centre as a cross, a line from there to the middle of the front with an arrow at it, and R
 * with the radius on the line (ISO 129-1, radius dimension; from memory).
 */
export const drawRadius = (
  pen: PaperPen,
  bend: FloorBend,
  unit: DisplayUnit,
  paper: (point: Point) => Point,
): void => {
  const [centre, tip] = [paper(bend.centre), paper(bend.middle)];
  const alongRad = Math.atan2(tip.y - centre.y, tip.x - centre.x);
  for (const turn of [0, Math.PI / 2]) {
    const arm = { x: armMm * Math.cos(turn), y: armMm * Math.sin(turn) };
    pen.line(
      [
        { x: centre.x - arm.x, y: centre.y - arm.y },
        { x: centre.x + arm.x, y: centre.y + arm.y },
      ],
      lines.dimension,
    );
  }
  pen.line([centre, tip], lines.dimension);
  for (const turn of [2.8, -2.8])
    pen.line(
      [
        tip,
        { x: tip.x + arrowMm * Math.cos(alongRad + turn), y: tip.y + arrowMm * Math.sin(alongRad + turn) },
      ],
      lines.dimension,
    );
  const plusMinus = formatPlusMinus(bend.radiusPlusMinusMm, { unit }).replace(/\s*mm$/, '');
  pen.text({
    text: `R ${drawnLength(bend.radiusMm, unit)} ${plusMinus}`,
    at: pointBetween(centre, tip, 0.4),
    angleRad: uprightAngle(alongRad),
    align: 'middle',
    vertical: 'middle',
    capitalMm: capital.small,
    colour: ink,
    hasGround: true,
  });
};
