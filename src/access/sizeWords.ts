import type { SizeName } from '../document/obstacleKinds.ts';

/** What each size of an obstacle is called, on screen and on the site-measure sheet. */
export const sizeWords: Readonly<Record<SizeName, string>> = {
  widthMm: 'Clear width',
  heightMm: 'Clear height',
  leafMm: 'Off the width for the leaf',
  thresholdMm: 'Threshold',
  fromMm: 'Width before the turn',
  toMm: 'Width after the turn',
  fromLegMm: 'Length before the turn',
  toLegMm: 'Length after the turn',
  passageMm: 'Width of the passage',
  wallMm: 'Thickness of the wall',
  doorWidthMm: 'Door, clear width',
  doorHeightMm: 'Door, clear height',
  carWidthMm: 'Car width',
  carDepthMm: 'Car depth',
  carHeightMm: 'Car height',
  landingMm: 'Depth of the landing',
  headroomMm: 'Headroom',
  wellMm: 'Width between the flights',
  depthMm: 'Clear depth',
};
