/**
 * A module with a straight front on a circular front line, in the plane of its own middle axis through the centre.
 *
 * With the front outside the module's front is a chord of the front line: its corners lie on it, and the curved top
 * overhangs the middle by the middle ordinate R (1 - cos a), a = asin(w / 2R). With the front inside a chord would
 * stand in front of the line, so the front is a tangent: its middle lies on the line, and the top overhangs the corners
 * by the external distance R (1 / cos a - 1), a = atan(w / 2R). These are the chord, middle ordinate, tangent and
 * external of a simple circular curve as surveying handbooks give them (formulas from memory).
 */
export interface CurvedModule {
  readonly widthMm: number;
  /** Half of the angle that the module takes, at its widest as seen from the centre. */
  readonly halfAngleRad: number;
  /** Half of the angle at the side where the module is narrower as seen from the centre. */
  readonly narrowHalfAngleRad: number;
  /** Distance of the front face's middle from the centre. */
  readonly faceMm: number;
  /** Distance from the centre of the corners at which neighbours are nearest. */
  readonly contactMm: number;
  /** Distance from the centre of the corners between which the wedge opens. */
  readonly openMm: number;
  /** How far the curved top overhangs the straight front where it does most. */
  readonly overhangMm: number;
}

/** The module on the line, or nothing where it is too wide for the radius, or its back reaches the centre. */
export const curvedModule = (
  widthMm: number,
  radiusMm: number,
  depthMm: number,
  front: 'outside' | 'inside',
): CurvedModule | undefined => {
  const halfMm = widthMm / 2;
  if (front === 'outside') {
    if (halfMm >= radiusMm) return undefined;
    const faceMm = Math.sqrt(radiusMm * radiusMm - halfMm * halfMm);
    const backMm = faceMm - depthMm;
    if (backMm <= 0) return undefined;
    return {
      widthMm,
      halfAngleRad: Math.atan2(halfMm, backMm),
      narrowHalfAngleRad: Math.asin(halfMm / radiusMm),
      faceMm,
      contactMm: Math.hypot(halfMm, backMm),
      openMm: radiusMm,
      overhangMm: radiusMm - faceMm,
    };
  }
  const cornerMm = Math.hypot(radiusMm, halfMm);
  return {
    widthMm,
    halfAngleRad: Math.atan2(halfMm, radiusMm),
    narrowHalfAngleRad: Math.atan2(halfMm, radiusMm + depthMm),
    faceMm: radiusMm,
    contactMm: cornerMm,
    openMm: Math.hypot(radiusMm + depthMm, halfMm),
    overhangMm: cornerMm - radiusMm,
  };
};

/** The distance between two points at these distances from the centre and this angle apart (law of cosines). */
export const apartMm = (oneMm: number, otherMm: number, angleRad: number): number =>
  Math.sqrt(Math.max(0, (oneMm - otherMm) ** 2 + 4 * oneMm * otherMm * Math.sin(angleRad / 2) ** 2));
