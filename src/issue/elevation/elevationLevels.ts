import type { Level } from '../drawing/drawing.ts';
import type { ElevationBuild } from './elevationBuild.ts';
import { drawnLength } from './elevationChains.ts';
import type { ElevationInput } from './elevationInput.ts';

/** A height above the datum, with its sign. */
export const signedHeight = (mm: number, unit: ElevationInput['unit']): string =>
  `${mm < 0 ? '\u2212' : mm > 0 ? '+' : '\u00b1'}${drawnLength(Math.abs(mm), unit)}`;

/**
 * The heights that fix the counter: feet, working top, upstand, serving shelf. Where the run has levels they count from
 * the sheet's datum, and the floors at the left end are among them.
 */
export const levelsOf = ({ run, unit }: ElevationInput, build: ElevationBuild): readonly Level[] => {
  const levels = run.levels ?? null;
  const level = (heightMm: number, word: string): Level => ({
    heightMm,
    word,
    text: levels ? signedHeight(heightMm - build.datum, unit) : drawnLength(heightMm, unit),
  });
  const floorMm = build.floorAt(0);
  return [
    ...(levels ? [{ ...level(floorMm, 'floor'), isLeftEnds: true }] : []),
    ...(levels && levels.raisedFloorBehindMm !== 0
      ? [{ ...level(floorMm + levels.raisedFloorBehindMm, 'floor behind'), isLeftEnds: true }]
      : []),
    level(build.feet, 'feet'),
    ...build.otherShelves.map((heightMm) => level(heightMm, 'shelf')),
    level(build.top, 'top'),
    level(build.upstand, 'upstand'),
    level(build.shelf, 'shelf'),
  ];
};
