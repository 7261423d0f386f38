import type { Point } from '../../src/geometry/point.ts';

declare const screenSpace: unique symbol;

/** A position in the board's own box, in CSS pixels, y down, from its top left corner. */
export type ScreenPoint = Point & { readonly [screenSpace]: true };

/** Names coordinates as a screen point, in CSS pixels. */
export const screenPoint = (x: number, y: number): ScreenPoint => ({ x, y }) as ScreenPoint;
